/**
 * `npm run -s bench`: how long the heavy work takes, each as a ratio to a reference run beside it on the same machine
 * at the same moment, since machines differ and are noisy. Nothing is asserted here.
 */
import FFT from "fft.js";
import { hear } from "@/lib/hearing/hear";
import { E9 } from "@/lib/instrument/copedents/e9";
import { placeSequence } from "@/lib/places/placeSequence";
import { renderDemoRecord } from "@/prisma/demo/renderDemo";

const RUNS = 3;

/** The shortest of some runs, in milliseconds of this process's own time: least disturbed by others. */
function shortestMs(work: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let run = 0; run < RUNS; run += 1) {
    const from = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(from);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

/** The reference of sound: a transform of 4096 points every 512 samples at 22.05 kHz, by fft.js alone. */
function transforms(durationSec: number): void {
  const fft = new FFT(4096);
  const input = Array.from({ length: 4096 }, (_, index) => Math.sin(index));
  const output = fft.createComplexArray();
  for (let frame = 0; frame < (durationSec * 22050) / 512; frame += 1) fft.realTransform(output, input);
}

/** The reference of reckoning: a million numbers sorted. */
function sorting(): void {
  Float64Array.from({ length: 1_000_000 }, (_, index) => (index * 7_919) % 1_000_003).sort();
}

const { channels, sampleRateHz } = renderDemoRecord();
const record = channels[0] ?? new Float32Array(0);
const durationSec = record.length / sampleRateHz;
const walk = [64, 66, 68, 69, 71, 73, 75, 76];
const events = Array.from({ length: 1000 }, (_, index) => {
  const low = walk[index % walk.length] ?? 64;
  return {
    startSec: index / 2,
    endSec: index / 2 + 0.4,
    notesMidi: index % 3 === 0 ? [low] : [low, low + 5],
  };
});

const rows = [
  {
    what: `hearing ${durationSec.toFixed(0)} s of record`,
    ms: shortestMs(() => void hear(record, sampleRateHz)),
    reference: "transforms of 4096 points over the same time",
    referenceMs: shortestMs(() => transforms(durationSec)),
  },
  {
    what: "placing 1,000 events on E9",
    ms: shortestMs(() => void placeSequence(E9, events)),
    reference: "sorting a million numbers",
    referenceMs: shortestMs(sorting),
  },
];
for (const { what, ms, reference, referenceMs } of rows)
  console.log(
    `${what}: ${ms.toFixed(0)} ms, ${(ms / referenceMs).toFixed(1)} times ${reference} (${referenceMs.toFixed(0)} ms)`,
  );
