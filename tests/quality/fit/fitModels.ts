import { belongingEvidence } from "@/lib/fit/belonging";
import type { FitOdds } from "@/lib/fit/FitOdds";
import { type NearMiss, nearMisses } from "@/lib/fit/nearMisses";
import { isInReach, type PassageFit } from "@/lib/fit/PassageFit";
import { termValue } from "@/lib/fit/weigh";
import type { LogisticModel } from "@/lib/hearing/notes/LogisticModel";
import type { Midi } from "@/lib/units/quantities";
import { fitLogistic, type Observed } from "../fitting/logistic";
import { type FitExample, SOUNDS_FROM, taughtNotes } from "./fitExamples";

/** The note evidence whose products count too: a note must be heard and have partials of its own, and so on. */
const CROSSED = [
  ...["heard", "lasting", "needed", "halfStepOff", "octaveBelow", "twelfthBelow", "octaveAbove"],
  ...["peaks", "peak1", "peak2", "octaves", "stands1"],
];
/** The same of whether notes belong together. */
const CROSSED_BELONGING = [
  "sounds",
  "level",
  "rise",
  "heard",
  "apartSec",
  "placeApart",
  "overtone",
  "undertone",
];
/** Semitones by which sets of notes are moved that teach how a guess reads that is nowhere near. */
const FAR_OFF = [-20, -17, -6, -5, 5, 6, 17, 20];
/** All notes of one record weigh as much as so many cases. */
const RECORD_WEIGHT = 300;
/** What is far off weighs so much beside what was played: enough to be known. */
const FAR_WEIGHT = 0.1;
/** A note that does not sound surely is no example of one that does not belong. */
const MAY_SOUND_FROM = -2;

/** A model of the terms that it is said to have. */
function fitTerms(terms: readonly string[], cases: readonly Observed[]): LogisticModel<string> {
  const expanded = cases.map(({ evidence, ...rest }) => ({
    ...rest,
    evidence: Object.fromEntries(terms.map((term) => [term, termValue(evidence, term)])),
  }));
  return fitLogistic(terms, expanded);
}

/** Every product of two of them, squares too, as terms. */
function productsOf(names: readonly string[]): string[] {
  return names.flatMap((a, i) => names.slice(i).map((b) => `${a}*${b}`));
}

function ofOneWeight(cases: readonly Omit<Observed, "weight">[], weight: number): Observed[] {
  return cases.map((one) => ({ ...one, weight: weight / cases.length }));
}

function byRecord<T>(examples: readonly FitExample[], casesOf: (example: FitExample) => T[]): T[][] {
  return [...new Set(examples.map(({ id }) => id))].map((id) =>
    examples.filter((example) => example.id === id).flatMap(casesOf),
  );
}

/** Whether a note sounds. */
export function fitSounds(examples: readonly FitExample[]): LogisticModel<string> {
  const names = Object.keys(examples[0]!.evidence.values().next().value!);
  const cases = byRecord(examples, (example) =>
    taughtNotes(example).map(({ evidence, sounds }) => ({ evidence, share: Number(sounds) })),
  ).flatMap((record) => ofOneWeight(record, RECORD_WEIGHT));
  return fitTerms([...names, ...productsOf(CROSSED)], cases);
}

/** Whether notes that sound belong together, by notes weighed with models that did not learn from their records. */
export function fitBelongs(
  examples: readonly FitExample[],
  fitOf: (example: FitExample) => PassageFit,
): LogisticModel<string> {
  const cases = examples.flatMap((example): Observed[] => {
    const fit = fitOf(example);
    const { notesMidi } = example.event;
    const together = (midi: Midi, others: readonly Midi[], share: number) => ({
      evidence: belongingEvidence(
        fit.note(midi),
        others.map((other) => fit.note(other)),
      ),
      share,
      weight: 1,
    });
    const found: Observed[] = [];
    if (notesMidi.length > 1)
      for (const midi of notesMidi)
        found.push(
          together(
            midi,
            notesMidi.filter((other) => other !== midi),
            1,
          ),
        );
    for (const midi of example.evidence.keys()) {
      const isNear = notesMidi.some((note) => Math.abs(note - midi) <= 16);
      if (isNear && !notesMidi.includes(midi) && fit.note(midi).sounds > MAY_SOUND_FROM)
        found.push(together(midi, notesMidi, 0));
    }
    return found;
  });
  return fitTerms([...Object.keys(cases[0]!.evidence), ...productsOf(CROSSED_BELONGING)], cases);
}

/** A set of notes of an example: what was played, or a near miss. */
export interface JudgedSet {
  notesMidi: readonly Midi[];
  /** Null of what was played. */
  miss: NearMiss | null;
  /** Those of what was played weigh 1 together, and its near misses as much, each kind alike. */
  weight: number;
  /**
   * All of its notes sound for as much of the passage as teaches that a note does, whoever plays them: what is wrong with
   * it cannot be heard in any one of them.
   */
  allSound: boolean;
}

export function judgedSets({ event }: Pick<FitExample, "event">): JudgedSet[] {
  const sounds = (midi: Midi) => (event.soundingShare.get(midi) ?? 0) > SOUNDS_FROM;
  const misses = nearMisses(event.notesMidi, isInReach);
  const kindOf = ({ change }: NearMiss) =>
    change.kind === "moved" ? `moved ${Math.abs(change.by)}` : change.kind;
  const kinds = new Map<string, number>();
  for (const miss of misses) kinds.set(kindOf(miss), (kinds.get(kindOf(miss)) ?? 0) + 1);
  return [
    { notesMidi: event.notesMidi, miss: null, weight: 1, allSound: true },
    ...misses.map((miss) => ({
      notesMidi: miss.notesMidi,
      miss,
      weight: 1 / kinds.size / kinds.get(kindOf(miss))!,
      allSound: miss.notesMidi.every(sounds),
    })),
  ];
}

/** Sets that are nowhere near what was played; none of their notes sounds. */
function farOff({ event }: FitExample): JudgedSet[] {
  const sets = FAR_OFF.map((by) => event.notesMidi.map((midi) => midi + by)).filter((set) =>
    set.every((midi) => isInReach(midi) && !event.soundingShare.has(midi)),
  );
  return sets.map((notesMidi) => ({
    notesMidi,
    miss: null,
    weight: FAR_WEIGHT / sets.length,
    allSound: false,
  }));
}

/** Whether a set of notes is what one player plays: what was played, against its near misses and what is far off. */
export function fitSet(
  examples: readonly FitExample[],
  fitOf: (example: FitExample) => PassageFit,
): LogisticModel<string> {
  const cases = examples.flatMap((example) => {
    const fit = fitOf(example);
    const observed = (sets: readonly JudgedSet[], isFar: boolean) =>
      sets.map(({ notesMidi, miss, weight }) => ({
        evidence: fit.setEvidence(notesMidi),
        share: miss || isFar ? 0 : 1,
        weight,
      }));
    return [...observed(judgedSets(example), false), ...observed(farOff(example), true)];
  });
  return fitTerms(Object.keys(cases[0]!.evidence), cases);
}

/** The models of notes that some examples teach. */
export type NoteModels = Pick<FitOdds, "sounds" | "belongs" | "set">;
