import { BEAT_WINDOW_SEC, beatF } from "../metrics/beatF";
import type { Prediction } from "../prediction";
import type { Truth } from "../Subject";
import { beatsWithin } from "../scoreItem";
import { beatsReason } from "./beats";
import { addTo, counted, seconds } from "./words";

const BEATS_RIGHT_FROM = 0.9;
/** Most of the beats stand in the bar as said. */
const MOSTLY = 0.8;
const IN_WORDS = ["no", "one", "two", "three", "four", "five"];

/** What is wrong with the bars, where the beats are right: their length, or where they begin. */
export function barsReason(truth: Truth, prediction: Prediction): string {
  const reference = truth.beats!;
  const told = beatsWithin(reference, prediction.beats);
  const f = beatF(
    reference.map(({ timeSec }) => timeSec),
    told,
  );
  if (f < BEATS_RIGHT_FROM) return `the beats are not right: ${beatsReason(truth, prediction)}`;
  const { meter } = prediction;
  if (truth.beatsPerBar && meter !== truth.beatsPerBar) return meterReason(truth, prediction);
  // How many beats after where it is told to stand in the bar each beat truly stands.
  const offsets = reference.flatMap(({ timeSec, inBar }) => {
    const beat = prediction.hearing.grid.beats.find(
      (other) => Math.abs(other.timeSec - timeSec) <= BEAT_WINDOW_SEC,
    );
    return beat ? [{ timeSec, late: (((inBar - beat.inBar) % meter) + meter) % meter }] : [];
  });
  const counts = new Map<string, number>();
  for (const { late } of offsets) addTo(counts, String(late), 1);
  const [commonest] = [...counts].sort((a, b) => b[1] - a[1]);
  if (!commonest) return "hardly a beat told";
  const late = Number(commonest[0]);
  if (commonest[1] / offsets.length >= MOSTLY && late > 0) return `downbeats ${inWords(late, meter)}`;
  const wrong = offsets.filter((offset) => offset.late !== 0);
  const [first] = wrong;
  if (!first) return "downbeats at the edges missed";
  return `${wrong.length} of ${counted(offsets.length, "beat")} stand elsewhere in the bar, from ${seconds(first.timeSec)} on (there downbeats ${inWords(first.late, meter)})`;
}

function inWords(late: number, meter: number): string {
  const early = meter - late;
  if (late === early) return `half a bar off`;
  const [beats, word] = late < early ? [late, "late"] : [early, "early"];
  return beats === 1 ? `a beat ${word}` : `${IN_WORDS[beats] ?? beats} beats ${word}`;
}

export function meterReason({ beatsPerBar }: Truth, { meter }: Prediction): string {
  return `bars of ${meter} beats where they have ${beatsPerBar}`;
}
