import type { Combination, Copedent, CopedentString } from "../Copedent";
import { effectiveMidi } from "../effectivePitch";
import { holdableSets } from "../holdable";
import { allStages } from "../stages";
import type { Chart } from "./Chart";
import { ChartFault, type ChartPath, show } from "./ChartFault";
import { CHART_LIMITS } from "./chartLimits";
import { readChanges } from "./readChanges";
import { readList, readObject, readStringNumber, readStringNumbers, readText, readWhole } from "./readValues";

const FIELDS: Readonly<Record<keyof Chart, true>> = {
  name: true,
  source: true,
  stoppedBy: true,
  strings: true,
  frets: true,
  changes: true,
  split: true,
  combinations: true,
  footRest: true,
  grips: true,
};
const HIGHEST_MIDI = 127;
const DEFAULT_FRETS = 24;

/**
 * Reads a copedent from plain JSON, see {@link Chart}. Everything is checked, so that what comes back can be laid out
 * and played; fields that are not known are refused, since they may change pitches. Left out: `stoppedBy` is the bar,
 * `frets` 24, a name is made up, and the other fields are empty.
 * @param json as from `JSON.parse`, of any make
 * @param id the copedent's id, which is no part of the chart
 * @throws ChartFault at the first fault, with the place and what to do
 */
export function readChart(json: unknown, id = "own"): Copedent {
  const fields = readObject(json, [], Object.keys(FIELDS));
  const fretCount = readWhole(fields.frets ?? DEFAULT_FRETS, ["frets"], 1, CHART_LIMITS.frets);
  const strings = readStrings(fields.strings, fretCount);
  const changes = readChanges(fields.changes ?? [], strings.length);
  const name = readText(fields.name ?? "", ["name"], CHART_LIMITS.nameCharacters);
  const copedent: Copedent = {
    id,
    name: name || `Own chart, ${strings.length === 1 ? "one string" : `${strings.length} strings`}`,
    source: readText(fields.source ?? "", ["source"], CHART_LIMITS.sourceCharacters),
    stoppedBy: readStoppedBy(fields.stoppedBy ?? "bar"),
    strings,
    changes,
    splits: readStringNumbers(fields.split ?? [], ["split"], strings.length),
    combinations: readCombinations(fields.combinations ?? [], strings.length, changes),
    footRest: readFootRest(fields.footRest ?? [], changes),
    grips: readGrips(fields.grips ?? [], strings.length),
    fretCount,
  };
  checkPitches(copedent);
  checkSize(copedent);
  return copedent;
}

function readStoppedBy(value: unknown): Copedent["stoppedBy"] {
  if (value === "bar" || value === "fingers") return value;
  throw new ChartFault(["stoppedBy"], `must be "bar" or "fingers", not ${show(value)}.`);
}

function readStrings(value: unknown, fretCount: number): CopedentString[] {
  const list = readList(value, ["strings"], CHART_LIMITS.strings, "strings");
  if (list.length === 0)
    throw new ChartFault(["strings"], "there are none: write the MIDI pitch of each string.");
  return list.map((each, at) => {
    const path: ChartPath = ["strings", at];
    const number = at + 1;
    if (typeof each !== "object") return { number, openMidi: readWhole(each, path, 0, HIGHEST_MIDI) };
    const { midi, beginsAtFret } = readObject(each, path, ["midi", "beginsAtFret"]);
    const openMidi = readWhole(midi, [...path, "midi"], 0, HIGHEST_MIDI);
    const begins = readWhole(beginsAtFret ?? 0, [...path, "beginsAtFret"], 0, fretCount);
    return begins === 0 ? { number, openMidi } : { number, openMidi, beginsAtFret: begins };
  });
}

function readCombinations(value: unknown, stringCount: number, changes: Copedent["changes"]): Combination[] {
  const stages = allStages({ changes });
  const seen = new Set<string>();
  return readList(value, ["combinations"], CHART_LIMITS.combinations, "combinations").map((each, at) => {
    const path: ChartPath = ["combinations", at];
    const fields = readObject(each, path, ["string", "stages", "semitones"]);
    const ids = readList(fields.stages, [...path, "stages"], CHART_LIMITS.changes, "pedals and levers");
    const named = ids.map((id, index) => {
      const stage = stages.find((known) => known.id === id);
      if (stage !== undefined) return stage;
      throw new ChartFault(
        [...path, "stages", index],
        `there is no pedal or lever ${show(id)}: it must be one of ${stages.map((known) => known.id).join(", ")}.`,
      );
    });
    if (named.length === 0 || new Set(named.map(({ change }) => change)).size < named.length)
      throw new ChartFault([...path, "stages"], "must name one or more pedals and levers, each once.");
    const string = readStringNumber(fields.string, [...path, "string"], stringCount);
    const sameAs = `${string} ${named.map((stage) => stage.id).sort()}`;
    if (seen.has(sameAs))
      throw new ChartFault(path, `string ${string} has that combination already: leave one of the two out.`);
    seen.add(sameAs);
    const most = CHART_LIMITS.semitones;
    const semitones = readWhole(fields.semitones, [...path, "semitones"], -most, most);
    return { string, stages: named.map((stage) => stage.id), semitones };
  });
}

function readFootRest(value: unknown, changes: Copedent["changes"]): number[] {
  const pedals = changes.flatMap(({ slot }) => (slot.kind === "pedal" ? [slot.place] : []));
  const places = readList(value, ["footRest"], 10, "pedal places").map((each, at) => {
    if (pedals.some((place) => place === each)) return each as number;
    throw new ChartFault(
      ["footRest", at],
      `no pedal stands at ${show(each)}: write places such as 1 for P1.`,
    );
  });
  return [...new Set(places)].sort((a, b) => a - b);
}

function readGrips(value: unknown, stringCount: number): number[][] {
  return readList(value, ["grips"], CHART_LIMITS.grips, "grips").map((each, at) => {
    const grip = readStringNumbers(each, ["grips", at], stringCount);
    if (grip.length < 2) throw new ChartFault(["grips", at], "must hold two strings or more.");
    return grip;
  });
}

/** Every string must stay within MIDI, from its lowest move when open to its highest at the last fret. */
function checkPitches(copedent: Copedent): void {
  const moves = [
    ...copedent.changes.flatMap(({ stages }) => stages.flatMap((pulls) => Object.entries(pulls))),
    ...copedent.combinations.map(({ string, semitones }): [string, number] => [String(string), semitones]),
  ];
  for (const [at, { number, openMidi }] of copedent.strings.entries()) {
    const own = moves.flatMap(([string, semitones]) => (Number(string) === number ? [semitones] : []));
    const top = (effectiveMidi(copedent, number, copedent.fretCount, []) ?? openMidi) + Math.max(0, ...own);
    const bottom = openMidi + Math.min(0, ...own);
    if (top <= HIGHEST_MIDI && bottom >= 0) continue;
    const reached = top > HIGHEST_MIDI ? `${top} at fret ${copedent.fretCount}` : `${bottom} when lowered`;
    throw new ChartFault(
      ["strings", at],
      `string ${number} would sound MIDI ${reached}, outside 0 to ${HIGHEST_MIDI}: mend its pitch, its moves or the frets.`,
    );
  }
}

function checkSize(copedent: Copedent): void {
  const most = CHART_LIMITS.holdableSets;
  // Most charts are small enough whatever stands where, and need not be gone through.
  if (copedent.changes.reduce((ways, { stages }) => ways * (1 + stages.length), 1) <= most) return;
  if (holdableSets(copedent, most).length <= most) return;
  throw new ChartFault(
    ["changes"],
    `pedals and levers can be held together in more than ${most} ways, too many to search: leave out some or their half stops.`,
  );
}
