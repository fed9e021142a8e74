import type { GlideKind, HeardGlide } from "@/lib/hearing/Hearing";
import { CHART_LIMITS } from "@/lib/instrument/chart/chartLimits";
import { isStageId } from "@/lib/instrument/stages";
import { LONGEST_BAR } from "@/lib/notation/beats/barPlaces";
import { ARTICULATIONS, type Articulation } from "@/lib/notation/PartEvent";
import { TECHNIQUES, type Technique } from "@/lib/notation/Technique";
import { parseHarte } from "@/lib/theory/harte";
import type { EpochMs } from "@/lib/units/quantities";
import type { RecordKind } from "./records";
import type { GridBeats, HomeKey, Registers, StringFrets } from "./registers";
import { isRecordId } from "./storage";

/** The shortest stretch that is shown, in seconds; below it two edges count as one. */
export const SHORTEST_SEC = 0.02;
/** Highest string number taken. */
const STRINGS_MAX = CHART_LIMITS.strings;
/** Highest fret taken. */
const FRET_MAX = CHART_LIMITS.frets;
const GLIDE_KINDS: Readonly<Record<GlideKind, true>> = { pedal: true, bar: true, unsure: true };

/** Seconds of a record: from its first sample, and within a day, longer than any record. */
export function isTime(value: unknown): value is number {
  return isFiniteNumber(value) && value >= 0 && value <= 86_400;
}

/** Milliseconds since the epoch, as far as a date goes either way (ECMA-262, "Time Values and Time Range"). */
export function isEpochMs(value: unknown): value is EpochMs {
  return isFiniteNumber(value) && Math.abs(value) <= 8.64e15;
}

/** Cents within half a semitone either way; beyond it the neighbouring key is the nearer name. */
export function isTuningCents(value: unknown): value is number {
  return isFiniteNumber(value) && Math.abs(value) <= 50;
}

/** A label in Harte syntax, without spaces around it. */
export function isLabel(value: unknown): value is string {
  if (typeof value !== "string" || value !== value.trim() || value.length > 64) return false;
  try {
    parseHarte(value);
    return true;
  } catch {
    return false;
  }
}

export function isHomeKey(value: unknown): value is HomeKey {
  return (
    isObject(value) &&
    typeof value.tonic === "string" &&
    /^[A-G][b#]?$/.test(value.tonic) &&
    (value.mode === "major" || value.mode === "minor")
  );
}

/** At least one beat, times ascending, each with its place in a bar of 1 to `LONGEST_BAR` beats. */
export function isGridBeats(value: unknown): value is GridBeats {
  if (!isObject(value) || !isWhole(value.beatsPerBar, 1, LONGEST_BAR)) return false;
  const { beatsSec, inBar, beatsPerBar } = value;
  if (!Array.isArray(beatsSec) || !Array.isArray(inBar)) return false;
  if (beatsSec.length === 0 || beatsSec.length !== inBar.length) return false;
  return (
    beatsSec.every((sec, index) => isTime(sec) && (index === 0 || sec > beatsSec[index - 1])) &&
    inBar.every((place) => isWhole(place, 1, beatsPerBar)) &&
    (value.division === undefined || value.division === 2 || value.division === 3) &&
    (value.freeStretches === undefined || isFreeStretches(value.freeStretches))
  );
}

/** Stretches in order, none overlapping another; may be empty. */
function isFreeStretches(value: unknown): boolean {
  if (!Array.isArray(value)) return false;
  let untilSec = 0;
  return value.every((each) => {
    if (!isObject(each) || !isTime(each.startSec) || !isTime(each.endSec)) return false;
    const follows = each.startSec >= untilSec && each.endSec > each.startSec;
    untilSec = each.endSec;
    return follows;
  });
}

/** A whole MIDI number. */
export function isBassPitch(value: unknown): value is number {
  return isWhole(value, 0, 127);
}

/** A MIDI number; fractions stand for notes that are off. */
export function isNotePitch(value: unknown): value is number {
  return isFiniteNumber(value) && value >= 0 && value <= 127;
}

/** Glides in order of time; may be empty. */
export function isGlides(value: unknown): value is HeardGlide[] {
  if (!Array.isArray(value)) return false;
  let untilSec = 0;
  return value.every((each) => {
    if (!isObject(each) || !isTime(each.atSec) || !isTime(each.durationSec)) return false;
    const follows = each.atSec >= untilSec && isNotePitch(each.toMidi);
    untilSec = each.atSec;
    return follows && typeof each.kind === "string" && Object.hasOwn(GLIDE_KINDS, each.kind);
  });
}

/** Signs of the name of a section or a passage. */
export const LONGEST_NAME = 40;

/** A letter or a name, without spaces around it. */
export function isSectionLabel(value: unknown): value is string {
  return typeof value === "string" && value === value.trim() && value !== "" && value.length <= LONGEST_NAME;
}

/** A name without spaces around it, or none. */
export function isStudyName(value: unknown): value is string {
  return value === "" || isSectionLabel(value);
}

/** How a part is called: a name without spaces around it, or none. */
export const isPartName = isStudyName;

/** A whole number of times, as many as a person can play something in a life. */
export function isCount(value: unknown): value is number {
  return isWhole(value, 0, 10_000_000);
}

/** Short texts by record id. */
export function isSigns(value: unknown): value is Record<string, string> {
  return (
    isObject(value) &&
    Object.values(value).every((sign) => typeof sign === "string" && sign !== "" && sign.length <= 64)
  );
}

/** Within half an octave either way: beyond it the nearer name lies the other way round. */
export function isTransposition(value: unknown): value is number {
  return isWhole(value, -5, 6);
}

/** One or more different string numbers, 1 furthest away. */
export function isStrings(value: unknown): value is number[] {
  return isListOf(value, (each) => isWhole(each, 1, STRINGS_MAX)) && value.length > 0;
}

/** Fret, 0 for open; fractions are bar positions between two frets. */
export function isFret(value: unknown): value is number {
  return isFiniteNumber(value) && value >= 0 && value <= FRET_MAX;
}

/** Frets by string number, of one string or more; null where one fret holds for all. */
export function isStringFrets(value: unknown): value is StringFrets | null {
  if (value === null) return true;
  if (!isObject(value)) return false;
  const strings = Object.keys(value);
  return isStrings(strings.map(Number)) && strings.every((string) => isFret(value[string]));
}

/** Different ids of a copedent's pedals and levers; may be empty. */
export function isChangeIds(value: unknown): value is string[] {
  return isListOf(value, isStageId);
}

export function isArticulation(value: unknown): value is Articulation {
  return ARTICULATIONS.some((articulation) => articulation === value);
}

/** Different techniques, in any order; may be empty. */
export function isTechniques(value: unknown): value is Technique[] {
  return isListOf(value, (each) => TECHNIQUES.some((technique) => technique === each));
}

function isYesOrNo(value: unknown): value is boolean {
  return typeof value === "boolean";
}

export type Guards<K extends RecordKind> = {
  [F in keyof Registers[K]]: (value: unknown) => value is Registers[K][F];
};

/** Which values each register may hold; a register that holds another is passed over by readers (rule D5). */
export const GUARDS: { readonly [K in RecordKind]: Guards<K> } = {
  tuning: { tuningCents: isTuningCents },
  grid: { beats: isGridBeats },
  home: { startSec: isTime, key: isHomeKey },
  change: { startSec: isTime, endSec: isTime, label: isLabel },
  bass: { startSec: isTime, endSec: isTime, midi: isBassPitch },
  section: {
    startSec: isTime,
    endSec: isTime,
    label: isSectionLabel,
    transposedSemitones: isTransposition,
  },
  note: { startSec: isTime, endSec: isTime, midi: isNotePitch, glides: isGlides },
  part: {
    part: isRecordId,
    startSec: isTime,
    endSec: isTime,
    strings: isStrings,
    fret: isFret,
    frets: isStringFrets,
    changes: isChangeIds,
    articulation: isArticulation,
    harmonic: isYesOrNo,
    vibrato: isYesOrNo,
    block: isYesOrNo,
  },
  study: { startSec: isTime, endSec: isTime, name: isStudyName },
};

const REGISTER_NAMES = Object.fromEntries(
  Object.entries(GUARDS).map(([kind, guards]) => [kind, Object.keys(guards)]),
);

/** Names of the registers of a kind. */
export function registerNames<K extends RecordKind>(kind: K): readonly (keyof Registers[K] & string)[] {
  return REGISTER_NAMES[kind] as (keyof Registers[K] & string)[];
}

export function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

export function isFiniteNumber(value: unknown): value is number {
  return typeof value === "number" && Number.isFinite(value);
}

/** How sure the machine is, 0 to 1. */
export function isCertainty(value: unknown): value is number {
  return isFiniteNumber(value) && value >= 0 && value <= 1;
}

function isWhole(value: unknown, from: number, to: number): value is number {
  return Number.isInteger(value) && (value as number) >= from && (value as number) <= to;
}

function isListOf<T>(value: unknown, isEach: (each: unknown) => boolean): value is T[] {
  return Array.isArray(value) && value.every(isEach) && new Set(value).size === value.length;
}
