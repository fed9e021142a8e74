import { hearRecord } from "@/lib/hearing/hear";
import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { RecordIntake } from "@/lib/hearing/RecordIntake";
import { transforms } from "./reference";

/** Seconds that each stage took, in order, and the reference beside them. */
export interface StageTimes {
  stages: Record<string, number>;
  totalSec: number;
  referenceSec: number;
}

/**
 * Hears a record stage by stage.
 * @param nowSec the clock: this process's own time where there is one, else the clock on the wall
 */
export function timeStages(
  channels: readonly Float32Array[],
  sampleRateHz: number,
  ear: LearnedEar | null,
  nowSec: () => number,
): StageTimes {
  const stages: Record<string, number> = {};
  let since = nowSec();
  let stage = "taking in";
  const next = (name: string): void => {
    const now = nowSec();
    stages[stage] = (stages[stage] ?? 0) + now - since;
    since = now;
    stage = name;
  };
  const start = since;
  const intake = new RecordIntake(sampleRateHz);
  intake.take(channels, channels[0]!.length);
  const record = intake.finish();
  hearRecord(record, {
    ear,
    onProgress: (step) => {
      if (step !== stage) next(step);
    },
  });
  next("end");
  const totalSec = since - start;
  transforms(record.durationSec);
  return { stages, totalSec, referenceSec: nowSec() - since };
}

/** The quickest of some runs: least disturbed by others. */
export function quickest(runs: number, run: () => StageTimes): StageTimes {
  let best = run();
  for (let i = 1; i < runs; i++) {
    const other = run();
    if (other.totalSec < best.totalSec) best = other;
  }
  return best;
}
