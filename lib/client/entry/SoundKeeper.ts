import type { Seconds } from "@/lib/units/quantities";

/** As much sound as one analyser keeps (Web Audio API, section 1.8: 32768 samples at most). */
const BLOCK_SAMPLES = 32_768;
/** So much of each block is in the next older one as well. */
const OVERLAP_SAMPLES = 2048;
/** Sound is made in quanta (section 2.4); blocks that are read one after the other may be some of them apart. */
const QUANTUM_SAMPLES = 128;
const MOST_QUANTA_APART = 8;

/**
 * Keeps the newest sound of a node for looking back at, at any sample rate. Where one analyser holds too little of it, as
 * from 96 kHz on, older sound waits in others behind a delay; what they have in common tells how they lie to one another.
 */
export class SoundKeeper {
  private readonly blocks: AnalyserNode[];

  /** @param keptSec how much is kept; at most a second */
  constructor(
    private readonly source: AudioNode,
    private readonly keptSec: Seconds,
  ) {
    const { context } = source;
    const stepSamples = BLOCK_SAMPLES - OVERLAP_SAMPLES;
    const surePerBlock = stepSamples - MOST_QUANTA_APART * QUANTUM_SAMPLES;
    const older = Math.ceil((keptSec * context.sampleRate - BLOCK_SAMPLES) / surePerBlock);
    this.blocks = Array.from({ length: 1 + Math.max(0, older) }, (_, at) => {
      const block = new AnalyserNode(context, { fftSize: BLOCK_SAMPLES });
      const delayTime = (at * stepSamples) / context.sampleRate;
      if (at === 0) source.connect(block);
      else source.connect(new DelayNode(context, { delayTime })).connect(block);
      return block;
    });
  }

  /** The newest sound, oldest sample first; silence before the first. */
  read(): Float32Array<ArrayBuffer> {
    const [newest, ...older] = this.blocks.map((block) => {
      const samples = new Float32Array(BLOCK_SAMPLES);
      block.getFloatTimeDomainData(samples);
      return samples;
    });
    const parts = [newest!];
    let after = newest!;
    for (const block of older) {
      parts.unshift(block.subarray(0, BLOCK_SAMPLES - overlapOf(block, after)));
      after = block;
    }
    const all = new Float32Array(parts.reduce((sum, { length }) => sum + length, 0));
    let filled = 0;
    for (const part of parts) {
      all.set(part, filled);
      filled += part.length;
    }
    return all.slice(-Math.round(this.keptSec * this.source.context.sampleRate));
  }
}

/** How many samples at the end of a block are those at the beginning of the one after it: where they are most alike. */
function overlapOf(before: Float32Array, after: Float32Array): number {
  let best = { overlap: OVERLAP_SAMPLES, apart: differenceOver(before, after, OVERLAP_SAMPLES) };
  for (let quanta = -MOST_QUANTA_APART; quanta <= MOST_QUANTA_APART; quanta += 1) {
    const overlap = OVERLAP_SAMPLES + quanta * QUANTUM_SAMPLES;
    const apart = differenceOver(before, after, overlap);
    if (apart < best.apart) best = { overlap, apart };
  }
  return best.overlap;
}

/** Mean square of what differs. */
function differenceOver(before: Float32Array, after: Float32Array, overlap: number): number {
  let sum = 0;
  for (let at = 0; at < overlap; at += 1) sum += (before[before.length - overlap + at]! - after[at]!) ** 2;
  return sum / overlap;
}
