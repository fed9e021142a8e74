import { type LoudLoop, levelDbfs, listenOn, NOT_LOUD } from "./loudLoop";
import { METER_SIZE, type OutputChain } from "./outputChain";

/** Looks once a second how loud it is, and whether it has been loud for long. */
export class LoudnessWatch {
  static readonly everyMs = 1000;
  private loud: LoudLoop = NOT_LOUD;
  private lookedAtMs = 0;
  private timer: ReturnType<typeof setInterval> | undefined;
  private readonly samples = new Float32Array(METER_SIZE);

  /**
   * @param output what is sent to the ears; null before anything is
   * @param isLooping whether the record goes round and round now
   * @param tell told, at each look, whether somebody is to be cautioned
   */
  constructor(
    private readonly output: () => Pick<OutputChain, "readOutput"> | null,
    private readonly isLooping: () => boolean,
    private readonly tell: (isCautioned: boolean) => void,
  ) {}

  /** Does nothing where it is too early to look again. */
  look(): void {
    const output = this.output();
    const nowMs = performance.now();
    const elapsedMs = nowMs - this.lookedAtMs;
    if (!output || elapsedMs < LoudnessWatch.everyMs) return;
    this.lookedAtMs = nowMs;
    output.readOutput(this.samples);
    this.loud = listenOn(this.loud, {
      elapsedSec: Math.min(elapsedMs / 1000, 5),
      isLooping: this.timer !== undefined || this.isLooping(),
      levelDbfs: levelDbfs(this.samples),
    });
    this.tell(this.loud.isCautioned);
  }

  /** Says whether something sounds beside the record that goes on and on: it counts as a loop does, and is looked at without frames. */
  setEndless(isSounding: boolean): void {
    clearInterval(this.timer);
    this.timer = isSounding ? setInterval(() => this.look(), LoudnessWatch.everyMs + 50) : undefined;
  }

  close(): void {
    this.setEndless(false);
  }
}
