import { HEARING_STEPS, type HearingStep } from "@/lib/hearing/Hearing";

export type RunStep = "decode" | "peaks" | HearingStep;
const [TUNING, ...MUSIC] = HEARING_STEPS;
/** The steps of a whole run, in order: reading the record, drawing its waveform, hearing its tuning, notes and the rest. */
export const RUN_STEPS: readonly RunStep[] = ["decode", "peaks", TUNING, "notes", ...MUSIC];

/** How long each step takes beside the others, as measured over records of half a minute; 100 for all but the notes. */
const WEIGHTS: Record<RunStep, number> = {
  decode: 11,
  peaks: 3,
  tuning: 2,
  beats: 64,
  changes: 13,
  home: 1,
  bass: 4,
  sections: 2,
  notes: 60,
};

const TOTAL = RUN_STEPS.reduce((sum, step) => sum + WEIGHTS[step], 0);

/** How far the whole run is, 0 to 1, from how far it is in one step. */
export function runFraction(step: RunStep, stepFraction: number): number {
  let before = 0;
  for (const one of RUN_STEPS) {
    if (one === step) break;
    before += WEIGHTS[one];
  }
  const within = Math.min(1, Math.max(0, stepFraction));
  return (before + WEIGHTS[step] * within) / TOTAL;
}
