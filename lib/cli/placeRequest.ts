import { z } from "zod";
import type { Copedent } from "@/lib/instrument/Copedent";
import { engagedStages, UnknownChangeError } from "@/lib/instrument/stages";
import type { HeardEvent } from "@/lib/places/HeardEvent";
import type { PartLocks, PlaceLocks } from "@/lib/places/PlaceLocks";
import { HarteError, parseHarte } from "@/lib/theory/harte";
import type { Key } from "@/lib/theory/key";
import { parsePitchName } from "@/lib/theory/spelling";
import { namedCopedent } from "./namedCopedent";
import { checkRequest, RequestFault } from "./readRequest";

/** What `place` is asked, read and checked. */
export interface PlaceRequest {
  copedent: Copedent;
  key: Key | undefined;
  locks: PartLocks;
  /** Whether the bar may be slanted. */
  slants: boolean;
  events: HeardEvent[];
}

const seconds = z.number("must be a number of seconds");
const midi = z
  .int("must be a whole MIDI number from 0 to 127")
  .min(0, "must not be below 0")
  .max(127, "must not be above 127");
const fret = z.int("must be a whole fret").min(0, "must not be below 0");
const stringNumber = z.int("must be a string's number").min(1, "must be a string's number, counted from 1");
const strings = z
  .array(stringNumber, "must be a list of string numbers")
  .min(1, "must name at least one string");
const stageIds = z.array(z.string("must be a pedal or lever's name"), "must be a list of pedals and levers");

const partLocks = {
  frets: z
    .tuple([fret, fret], "must be two frets, the lowest and the highest")
    .refine(([from, to]) => from <= to, "must name the lower fret first")
    .optional(),
  grip: strings.optional(),
  pedals: z.enum(["up", "down"], 'must be "up" or "down"').optional(),
  changes: stageIds.optional(),
};
const LOCK_NAMES = {
  part: "frets, grip, pedals, changes",
  event: "string, fret, place, frets, grip, pedals, changes",
};
const lockFault = (names: string) => (issue: { code?: string; keys?: string[] }) =>
  issue.code === "unrecognized_keys"
    ? `holds no lock called ${(issue.keys ?? []).map((key) => `"${key}"`).join(", ")}: there are ${names}`
    : "must be an object of locks";
const PartLocksJson = z.strictObject(partLocks, { error: lockFault(LOCK_NAMES.part) });
const EventLocksJson = z.strictObject(
  {
    ...partLocks,
    string: z
      .record(z.string().regex(/^\d+$/, "must name notes by MIDI number"), stringNumber, {
        error: 'must be notes with their strings, as in {"64": 4}',
      })
      .optional(),
    fret: fret.optional(),
    place: z
      .object(
        {
          fret,
          frets: z.array(fret, "must be a list of frets, one a string").optional(),
          changes: stageIds.default([]),
          strings,
        },
        "must be an object with fret, changes and strings",
      )
      .refine(({ frets, strings: on }) => frets === undefined || frets.length === on.length, {
        error: "must have one of frets for each of its strings",
      })
      .optional(),
  },
  { error: lockFault(LOCK_NAMES.event) },
);

const EventJson = z
  .object(
    {
      start: seconds,
      end: seconds,
      notes: z.array(midi, "must be a list of MIDI numbers").min(1, "must hold at least one note"),
      chord: z.string("must be a chord in Harte's syntax, such as G:maj").optional(),
      glide: z.enum(["oblique", "parallel"], 'must be "oblique" or "parallel"').optional(),
      locks: EventLocksJson.optional(),
    },
    "must be an object with start, end and notes",
  )
  .refine(({ start, end }) => end >= start, "must not end before it starts");

const RequestJson = z.object(
  {
    copedent: z.union([z.string(), z.looseObject({})], {
      error: 'must be the name of a copedent, such as "e9", or a chart of its own',
    }),
    key: z.string('must be a key, such as "G" or "E minor"').optional(),
    locks: PartLocksJson.optional(),
    slants: z.boolean("must be true or false").default(false),
    events: z.array(EventJson, "must be a list of events"),
  },
  "must be one JSON object with copedent and events",
);

type EventJson = z.infer<typeof EventJson>;
type PartLocksJson = z.infer<typeof PartLocksJson>;

/**
 * Reads what `place` is asked, from JSON of any make; see `runPlace` for the form.
 * @throws RequestFault at the first fault, in words
 */
export function readPlaceRequest(json: unknown): PlaceRequest {
  const request = checkRequest(json, RequestJson, "place this");
  const { copedent: named, key, locks = {}, slants, events } = request;
  const copedent = namedCopedent(named, "place this");
  const part = {
    copedent,
    key: key === undefined ? undefined : readKey(key),
    locks: checkedLocks(copedent, partLocksOf(locks), "locks"),
    slants,
  };
  if (events.length === 0) throw new RequestFault("Cannot place this: events must hold at least one event.");
  return { ...part, events: events.map((event, at) => readEvent(copedent, event, `events[${at}]`)) };
}

function readEvent(copedent: Copedent, event: EventJson, at: string): HeardEvent {
  const { start, end, notes, chord, glide, locks = {} } = event;
  if (chord !== undefined) checkChord(chord, at);
  const { string, fret: lockedFret, place } = locks;
  const own: PlaceLocks = {
    ...partLocksOf(locks),
    ...(string && {
      strings: Object.entries(string).map(([note, on]) => ({ midi: Number(note), string: on })),
    }),
    ...(lockedFret !== undefined && { fret: lockedFret }),
    ...(place && { place }),
  };
  return {
    startSec: start,
    endSec: end,
    notesMidi: notes,
    locks: checkedLocks(copedent, own, `${at}.locks`),
    ...(chord !== undefined && { chordLabel: chord }),
    ...(glide && { glide }),
  };
}

function partLocksOf({ frets, grip, pedals, changes }: PartLocksJson): PartLocks {
  return {
    ...(frets && { frets: { from: frets[0], to: frets[1] } }),
    ...(grip && { grip }),
    ...(pedals && { pedals }),
    ...(changes && { changes }),
  };
}

/** Locks of pedals, levers and strings that the copedent has. */
function checkedLocks<Locks extends PlaceLocks>(copedent: Copedent, locks: Locks, at: string): Locks {
  const named = [
    ...(locks.grip ?? []).map((string) => ["grip", string] as const),
    ...(locks.place?.strings ?? []).map((string) => ["place.strings", string] as const),
    ...(locks.strings ?? []).map(({ string }) => ["string", string] as const),
  ];
  for (const [where, string] of named) {
    if (copedent.strings.some(({ number }) => number === string)) continue;
    throw new RequestFault(
      `Cannot place this: ${at}.${where} names string ${string}, and ${copedent.name} has ${copedent.strings.length}.`,
    );
  }
  for (const [where, ids] of [
    ["changes", locks.changes] as const,
    ["place.changes", locks.place?.changes] as const,
  ]) {
    try {
      engagedStages(copedent, ids ?? []);
    } catch (error) {
      if (error instanceof UnknownChangeError)
        throw new RequestFault(`Cannot place this: ${at}.${where}: ${error.message}`);
      throw error;
    }
  }
  return locks;
}

function checkChord(label: string, at: string): void {
  try {
    parseHarte(label);
  } catch (error) {
    if (error instanceof HarteError)
      throw new RequestFault(`Cannot place this: ${at}.chord: ${error.message}`);
    throw error;
  }
}

/** `G`, `Gm`, `G minor`, `Eb major`. */
function readKey(text: string): Key {
  const read = /^\s*([A-G][b#♭♯]?)\s*(m|maj|min|major|minor)?\s*$/.exec(text);
  if (read?.[1] === undefined)
    throw new RequestFault(`Cannot place this: key must be as in "G", "Gm" or "E minor", not "${text}".`);
  const { letter, alteration } = parsePitchName(read[1]);
  const tonic = `${letter}${alteration > 0 ? "#" : alteration < 0 ? "b" : ""}`;
  return { tonic, mode: read[2] === "m" || read[2]?.startsWith("min") ? "minor" : "major" };
}
