import type { Signal } from "@/lib/dsp/Signal";
import { FitEar } from "@/lib/fit/FitEar";
import type { FitSound } from "@/lib/fit/FitSound";
import { hearTuning } from "@/lib/hearing/tuning";
import type { Subject } from "../Subject";
import { chosenEvents, spread } from "./fitEvents";
import { harmonyExample, harmonySpans } from "./harmonyExamples";
import { type JudgedFit, judgeHarmony, judgeNotes } from "./judgeFit";
import { oddsWithout } from "./oddsOf";

/** Passages of a record that are asked for, by what is asked; the same ones each time. */
const NOTES = 8;
const CHORDS = 4;
const KEYS = 2;

/**
 * Holds what is known of a record against it, and the near misses of that, by weights that were fitted without it.
 * @param sound the whole record at the ear's rate and level
 */
export function judgeRecord(
  { id, truth }: Pick<Subject, "id" | "truth">,
  sound: FitSound & { signal: Signal },
): JudgedFit[] {
  const spans = harmonySpans(truth, CHORDS);
  const keys = spread(
    spans.filter(({ kind }) => kind === "key"),
    KEYS,
  );
  const events = chosenEvents(truth, NOTES);
  const harmony = [...spans.filter(({ kind }) => kind === "chord"), ...keys];
  if (events.length + harmony.length === 0) return [];
  const odds = oddsWithout(id);
  const ear = new FitEar(hearTuning(sound.signal).cents);
  return [
    ...events.map((event) => judgeNotes(ear.look(sound, event), odds, event)),
    ...harmony.map((span) => judgeHarmony(harmonyExample(id, ear, sound, span), odds)),
  ];
}
