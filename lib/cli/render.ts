import { writeFile } from "node:fs/promises";
import { parseArgs } from "node:util";
import { z } from "zod";
import type { Copedent } from "@/lib/instrument/Copedent";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { ARTICULATIONS } from "@/lib/notation/PartEvent";
import { TECHNIQUES } from "@/lib/notation/Technique";
import { encodeWav } from "@/lib/synth/encodeWav";
import { level } from "@/lib/synth/mix";
import { type PlayedEvent, playPart } from "@/lib/synth/playPart";
import { seededNoise } from "@/lib/synth/seededNoise";
import { renderSteel } from "@/lib/synth/steelVoice";
import type { CommandStreams } from "./CommandStreams";
import { namedCopedent } from "./namedCopedent";
import { checkRequest, RequestFault, readJson } from "./readRequest";

const USAGE =
  "Usage: render PART.json -o OUT.wav, or render - -o OUT.wav to read the JSON from standard input.";
const SAMPLE_RATE_HZ = 44100;
/** After the last event, until the last string is still. */
const TAIL_SEC = 0.2;
const LONGEST_SEC = 20 * 60;

const seconds = z.number("must be a number of seconds").min(0, "must not be before 0 s");
const fret = z.int("must be a whole fret number").min(0, "must not be below fret 0");
const oneOf = (words: readonly string[]) => `must be one of ${words.map((each) => `"${each}"`).join(", ")}`;
const Event = z
  .strictObject(
    {
      start: seconds,
      end: seconds.max(LONGEST_SEC, `must not end after ${LONGEST_SEC} s`),
      strings: z
        .array(z.int("must be a string number"), "must be a list of string numbers")
        .min(1, "must name a string"),
      fret,
      frets: z.array(fret, "must be a list of frets, one a string").nullish(),
      changes: z
        .array(z.string("must be the name of a pedal or lever"), "must be a list of pedals and levers")
        .default([]),
      articulation: z.enum(ARTICULATIONS, oneOf(ARTICULATIONS)).default("pick"),
      techniques: z.array(z.enum(TECHNIQUES, oneOf(TECHNIQUES)), "must be a list of techniques").default([]),
    },
    "must be an event with start, end, strings, fret and, where there are any, frets, changes, articulation, techniques",
  )
  .refine(({ start, end }) => end > start, "must end after it starts")
  .refine(({ strings }) => new Set(strings).size === strings.length, "must name each string once")
  .refine(
    ({ strings, frets }) => !frets || frets.length === strings.length,
    "must have a fret for each string",
  );
const Request = z.strictObject(
  {
    copedent: z.union(
      [z.string(), z.record(z.string(), z.unknown())],
      'must be the name of a copedent, such as "e9", or a chart',
    ),
    events: z.array(Event, "must be a list of events").min(1, "must hold at least one event"),
    tuningCents: z
      .number("must be a number of cents")
      .min(-100, "must not be below -100")
      .max(100, "must not be above 100")
      .default(0),
  },
  "must be one JSON object with copedent and events",
);

/**
 * Renders a part as the steel plays it.
 *
 * In: `{"copedent": "e9" or a chart as for place, "events": [{"start": s, "end": s, "strings": [3, 5], "fret": 5, "frets":
 * [5, 6], "changes": ["A"], "articulation": "pick", "techniques": ["vibrato"]}], "tuningCents": 0}` from a file, or from
 * standard input for `-`. `frets` (one for each string, where they differ), `changes`, `articulation`, `techniques` and
 * `tuningCents` may be left out. Out: a WAVE
 * file of 16 bits, 44.1 kHz, mono, dry, from second 0 to the end of the last event and 0.2 s more, its highest sample just
 * below full scale; nothing on stdout. Strings whose pedals give no dependable pitch stay silent, and a line on stderr
 * names them.
 * @returns exit status: 0, or 1 after one line on stderr; nothing is written then
 */
export async function runRender(args: readonly string[], streams: CommandStreams): Promise<number> {
  try {
    const { path, out } = readArgs(args);
    const {
      copedent: named,
      events,
      tuningCents,
    } = checkRequest(await readJson(path, streams), Request, "render this");
    const copedent = namedCopedent(named, "render this");
    const part = events.map(
      ({ start, end, frets, ...rest }): PlayedEvent => ({
        startSec: start,
        endSec: end,
        frets: frets ?? null,
        ...rest,
      }),
    );
    for (const [at, event] of part.entries()) {
      checkNeck(event, at, copedent);
      for (const words of silentStrings(event, at, copedent)) streams.stderr.write(`${words}\n`);
    }
    const durationSec = Math.max(...part.map(({ endSec }) => endSec)) + TAIL_SEC;
    const notes = playPart(part, copedent);
    if (notes.length === 0) throw new RequestFault("Nothing of this part sounds, so nothing was written.");
    const samples = renderSteel(notes, durationSec, SAMPLE_RATE_HZ, seededNoise(1), tuningCents);
    level([samples]);
    await writeFile(out, encodeWav([samples], SAMPLE_RATE_HZ)).catch((error: unknown) => {
      throw new RequestFault(`Could not write ${out}: ${wordsOf(error)}`);
    });
    return 0;
  } catch (fault) {
    streams.stderr.write(`${wordsOf(fault).replace(/\s*\n\s*/g, " ")}\n`);
    return 1;
  }
}

function readArgs(args: readonly string[]): { path: string; out: string } {
  try {
    const options = { output: { type: "string", short: "o" } } as const;
    const { values, positionals } = parseArgs({ args: [...args], options, allowPositionals: true });
    const [path, ...rest] = positionals;
    if (path !== undefined && rest.length === 0 && values.output) return { path, out: values.output };
  } catch {
    // What is wrong with it is what the usage says.
  }
  throw new RequestFault(USAGE);
}

/** @throws RequestFault on a string or fret that the neck lacks */
function checkNeck(
  { strings, fret, frets }: PlayedEvent,
  at: number,
  { name, strings: own, fretCount }: Copedent,
): void {
  const missing = strings.find((string) => !own.some(({ number }) => number === string));
  if (missing !== undefined)
    throw new RequestFault(
      `Cannot render this: events[${at}].strings names string ${missing}; ${name} has 1 to ${own.length}.`,
    );
  const beyond = [fret, ...(frets ?? [])].find((each) => each > fretCount);
  if (beyond !== undefined)
    throw new RequestFault(
      `Cannot render this: events[${at}] lies at fret ${beyond}; ${name} has frets up to ${fretCount}.`,
    );
}

/** @throws RequestFault on a pedal or lever that the copedent lacks */
function silentStrings(event: PlayedEvent, at: number, copedent: Copedent): string[] {
  try {
    return stoppedPitches(copedent, event).flatMap((midi, index) =>
      midi === null
        ? [`events[${at}]: string ${event.strings[index]} has no dependable pitch there, so it stays silent.`]
        : [],
    );
  } catch (fault) {
    throw new RequestFault(`Cannot render this: events[${at}].changes: ${wordsOf(fault)}`);
  }
}

function wordsOf(fault: unknown): string {
  return fault instanceof Error ? fault.message : String(fault);
}
