import { apartSec, isOutOfTime } from "@/lib/fit/takes/sumUp";
import type { PlayedBesides, StrokeJudged, TakeJudged, TakeOverall } from "@/lib/fit/takes/TakeJudged";
import { CLEAN } from "@/lib/fit/takes/takeParameters";
import { joinWords } from "@/lib/places/joinWords";
import type { Key } from "@/lib/theory/key";
import { midiToName } from "@/lib/theory/spelling";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { placeWords, type SongGrid } from "../axis/songGrid";
import { clockText, printed } from "../format/format";

/** One thing in a take that is not as the part has it. */
export interface TakeFault {
  /** Of the record: where to go and listen. */
  atSec: Seconds;
  /** The event of the part that it is about; null for what was played besides. */
  eventId: string | null;
  /** As in `Bar 3 beat 2: G was wanted, F♯ heard`. */
  words: string;
}

/** How places and notes are named. */
export interface FaultNaming {
  grid: SongGrid | null;
  /** Home at a time, by which notes are spelled; null where it is not known or kept back. */
  keyAt(sec: Seconds): Key | null;
}

/** How a take went as a whole, as in `Clean. 4 ms behind on the whole, spread 18 ms.` */
export function takeLine(judged: TakeOverall): string {
  const { flaws, isClean, strokeCount, foundCount } = judged;
  if (flaws.includes("noStrokes"))
    return "Nothing of the part is written here, so it was held against nothing.";
  if (flaws.includes("silent"))
    return "Hardly anything is heard in it. Look at the microphone and its level, then play it once more.";
  const found =
    foundCount === strokeCount && strokeCount > 1 ? `all ${strokeCount}` : `${foundCount} of ${strokeCount}`;
  const head = isClean
    ? "Clean."
    : `Not clean yet, ${found} ${strokeCount === 1 ? "stroke" : "strokes"} found.`;
  return [head, timeWords(judged), ...wholeWords(judged)].filter((words) => words !== "").join(" ");
}

/** How it lies in time, as in `4 ms behind on the whole, spread 18 ms.`; empty where nothing is timed. */
function timeWords({ medianLateSec, spreadSec }: TakeOverall): string {
  if (medianLateSec === null) return "";
  const whole = inMs(medianLateSec) === 0 ? "In time" : lateWords(medianLateSec);
  const spread = spreadSec === null ? "" : `, spread ${inMs(spreadSec)} ms`;
  return `${whole} on the whole${spread}.`;
}

/** What is to be said of the take as a whole, beyond its strokes. */
function wholeWords({ flaws }: TakeOverall): string[] {
  const words: string[] = [];
  if (flaws.includes("farOff"))
    words.push(
      `More than ${inMs(CLEAN.medianSec)} ms is rather the device than the player: have its delay measured again.`,
    );
  if (flaws.includes("scattered")) words.push("The strokes lie unevenly: play it slower, then come back.");
  return words;
}

/** What is not as the part has it, in order of time; what is said of a stroke alone, each once. */
export function takeFaults(judged: TakeJudged, naming: FaultNaming): TakeFault[] {
  const faults = [
    ...judged.strokes.flatMap((stroke) => strokeFaults(stroke, judged.medianLateSec, naming)),
    ...judged.besides.map((each) => besidesFault(each, naming)),
  ];
  return faults.sort((a, b) => a.atSec - b.atSec);
}

/** The fault after a time, or before it; the first, or the last, where there is no other that way. Null where there are none. */
export function faultFrom(faults: readonly TakeFault[], atSec: Seconds, step: 1 | -1): TakeFault | null {
  const isBeyond = (fault: TakeFault) => (fault.atSec - atSec) * step > 1e-6;
  if (step > 0) return faults.find(isBeyond) ?? faults[0] ?? null;
  return faults.findLast(isBeyond) ?? faults.at(-1) ?? null;
}

function strokeFaults(stroke: StrokeJudged, medianLateSec: Seconds | null, naming: FaultNaming): TakeFault[] {
  const { eventId, startSec, notesMidi, verdict, heardMidi, lateSec, glides } = stroke;
  const names = namesAt(startSec, naming);
  const fault = (words: string, id = eventId): TakeFault => ({
    atSec: startSec,
    eventId: id,
    words: `${whereWords(startSec, naming)}: ${words}`,
  });
  if (verdict === "missed") return [fault(`${names(notesMidi, [])} wanted, nothing was picked there`)];
  const faults: TakeFault[] = [];
  if (verdict === "other") faults.push(fault(insteadWords(notesMidi, heardMidi ?? [], names)));
  for (const { eventId: id, toMidi, hasArrived, heardMidi: at } of glides) {
    if (hasArrived) continue;
    const stands = at === null ? "it is not heard there" : `it stands at ${names([at], [toMidi])}`;
    faults.push(fault(`should come to ${names([toMidi], at === null ? [] : [at])}, ${stands}`, id));
  }
  const apart = apartSec(lateSec, medianLateSec);
  if (isOutOfTime(apart))
    faults.push(fault(`${inMs(Math.abs(apart))} ms ${apart > 0 ? "late" : "early"} beside the rest`));
  return faults;
}

function insteadWords(
  wanted: readonly Midi[],
  heard: readonly Midi[],
  names: ReturnType<typeof namesAt>,
): string {
  const missing = wanted.filter((midi) => !heard.includes(midi));
  const more = heard.filter((midi) => !wanted.includes(midi));
  if (more.length === 0) return `${names(missing, heard)} is not heard, only ${names(heard, missing)}`;
  if (missing.length === 0) return `${names(more, wanted)} heard besides ${names(wanted, more)}`;
  return `${names(missing, more)} wanted, ${names(more, missing)} heard`;
}

function besidesFault({ atSec, heardMidi }: PlayedBesides, naming: FaultNaming): TakeFault {
  const words = `${namesAt(atSec, naming)(heardMidi, [])} heard, where nothing is written`;
  return { atSec, eventId: null, words: `${whereWords(atSec, naming)}: ${words}` };
}

/** Names of notes as home spells them; with their octaves where they would read like the others they are told from. */
function namesAt(sec: Seconds, { keyAt }: FaultNaming) {
  const key = keyAt(sec) ?? undefined;
  const name = (midi: Midi) => midiToName(midi, key);
  const letter = (midi: Midi) => name(midi).replace(/-?\d+$/, "");
  return (midis: readonly Midi[], others: readonly Midi[]): string => {
    const isTold = (midi: Midi) =>
      others.some((other) => letter(other) === letter(midi)) ||
      midis.some((other) => other !== midi && letter(other) === letter(midi));
    const isWhole = midis.some(isTold);
    return joinWords(midis.map((midi) => printed(isWhole ? name(midi) : letter(midi))));
  };
}

function whereWords(sec: Seconds, { grid }: FaultNaming): string {
  const words = placeWords(grid, sec) || clockText(sec, true);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function lateWords(sec: Seconds): string {
  return `${inMs(Math.abs(sec))} ms ${sec > 0 ? "behind" : "ahead"}`;
}

function inMs(sec: Seconds): number {
  return Math.round(sec * 1000);
}
