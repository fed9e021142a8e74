import { median } from "@/lib/dsp/running";
import { BEAT_WINDOW_SEC, beatF } from "../metrics/beatF";
import type { Prediction } from "../prediction";
import type { Truth } from "../Subject";
import { beatsWithin } from "../scoreItem";
import { counted, seconds } from "./words";

/** So much better a fault put right must make the F, to be the reason. */
const CLEARLY = 0.1;

/** What is wrong with the beats: the level, the side of the beat, a constant lag, or where they are missed. */
export function beatsReason({ beats: reference }: Truth, { beats }: Prediction): string {
  const marked = reference!.map(({ timeSec }) => timeSec);
  const told = beatsWithin(reference!, beats);
  if (told.length < 2) return "hardly a beat told";
  const given = beatF(marked, told);
  // Every second, third or so of the beats, from whichever is best to begin with.
  const everyNth = (times: readonly number[], step: number) =>
    Math.max(
      ...Array.from({ length: step }, (_, first) =>
        beatF(
          marked,
          times.filter((_time, i) => i % step === first),
        ),
      ),
    );
  const lag = usualLag(marked, told);
  const mended: [string, number][] = [
    ["beats at half the tempo", beatF(marked, split(told, 2))],
    ["beats at a third of the tempo", beatF(marked, split(told, 3))],
    ["beats at twice the tempo", everyNth(told, 2)],
    ["beats at three times the tempo", everyNth(told, 3)],
    ["three beats for two", everyNth(split(told, 2), 3)],
    ["two beats for three", everyNth(split(told, 3), 2)],
    [
      "beats between the beats",
      beatF(
        marked,
        told.map((time, i) => time + (i > 0 ? time - told[i - 1]! : told[1]! - time) / 2),
      ),
    ],
    [
      `beats ${Math.round(Math.abs(lag) * 1000)} ms ${lag > 0 ? "late" : "early"}`,
      beatF(
        marked,
        told.map((time) => time - lag),
      ),
    ],
  ];
  const [fault, f] = mended.reduce((best, other) => (other[1] > best[1] ? other : best));
  const place = missedPlace(marked, told);
  if (f > given + CLEARLY) return f >= 0.9 ? fault : `${fault} for part of it; ${place}`;
  return place;
}

export function tempoReason(truth: Truth, prediction: Prediction): string {
  const { tempo } = prediction;
  const ratio = tempo / truth.tempoBpm!;
  return `${tempo.toFixed(1)} for ${truth.tempoBpm!.toFixed(1)} beats a minute (${ratio.toFixed(2)} times)`;
}

function split(times: readonly number[], parts: number): number[] {
  return times.flatMap((time, i) => {
    const next = times[i + 1] ?? time;
    return Array.from(
      { length: i + 1 < times.length ? parts : 1 },
      (_, p) => time + ((next - time) * p) / parts,
    );
  });
}

/** Median of how far the nearest beat told stands behind each beat marked. */
function usualLag(marked: readonly number[], told: readonly number[]): number {
  return median(
    marked.map((time) => {
      const nearest = told.reduce((best, other) =>
        Math.abs(other - time) < Math.abs(best - time) ? other : best,
      );
      return nearest - time;
    }),
  );
}

/** How many beats are missed or made up, and the longest stretch in which they are missed. */
function missedPlace(marked: readonly number[], told: readonly number[]): string {
  const near = (time: number, others: readonly number[]) =>
    others.some((other) => Math.abs(other - time) <= BEAT_WINDOW_SEC);
  const missed = marked.map((time) => !near(time, told));
  const madeUp = told.filter((time) => !near(time, marked)).length;
  let [longest, from, run] = [0, 0, 0];
  missed.forEach((isMissed, i) => {
    run = isMissed ? run + 1 : 0;
    if (run > longest) [longest, from] = [run, i - run + 1];
  });
  const missedCount = missed.filter(Boolean).length;
  const where =
    longest > 1
      ? `, ${longest} in a row from ${seconds(marked[from]!)} to ${seconds(marked[from + longest - 1]!)}`
      : "";
  return `${missedCount} of ${counted(marked.length, "beat")} missed${where}; ${madeUp} told that are not marked`;
}
