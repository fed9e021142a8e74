import { type LoudLoop, levelDbfs, listenOn, NOT_LOUD } from "./loudLoop";
import { METER_SIZE, type OutputChain } from "./outputChain";

/** Looks once a second how loud it is, and whether it has been loud for long. */
export class LoudnessWatch {
  static readonly everyMs = 1000;
  private loud: LoudLoop = NOT_LOUD;
  private lookedAtMs = 0;
  private readonly samples = new Float32Array(METER_SIZE);

  /** @returns whether somebody is to be cautioned; null where it is too early to look again */
  look(chain: Pick<OutputChain, "readOutput">, isLooping: boolean): boolean | null {
    const nowMs = performance.now();
    const elapsedMs = nowMs - this.lookedAtMs;
    if (elapsedMs < LoudnessWatch.everyMs) return null;
    this.lookedAtMs = nowMs;
    chain.readOutput(this.samples);
    this.loud = listenOn(this.loud, {
      elapsedSec: Math.min(elapsedMs / 1000, 5),
      isLooping,
      levelDbfs: levelDbfs(this.samples),
    });
    return this.loud.isCautioned;
  }
}
