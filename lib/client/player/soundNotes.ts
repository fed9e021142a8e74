import type { Cents } from "@/lib/units/quantities";
import type { TracedNote } from "../song/noteTrace";

/** Plays notes alone, one handful at a time: the next one, or {@link stop}, ends the one before. */
export class NoteSounder {
  private context: AudioContext | null = null;
  private source: AudioBufferSourceNode | null = null;
  /** Counts what was asked for. */
  private turn = 0;

  /**
   * @param loudness 0 to 1, the level of the record
   * @param into where it joins other sound, which takes care of the ceiling; by itself unless given
   */
  async sound(
    notes: readonly TracedNote[],
    tuningCents: Cents,
    loudness: number,
    into?: AudioNode,
  ): Promise<void> {
    this.stop();
    const { turn } = this;
    if (notes.length === 0) return;
    const out = into ?? this.alone();
    const { context } = out;
    const resumed = context instanceof AudioContext ? context.resume() : null;
    const [{ notesAsSteel }] = await Promise.all([import("./notesAsSteel"), resumed]);
    // Another was asked for meanwhile, or silence.
    if (turn !== this.turn) return;
    const samples = notesAsSteel(notes, context.sampleRate, tuningCents);
    const buffer = new AudioBuffer({ length: samples.length, sampleRate: context.sampleRate });
    buffer.copyToChannel(samples, 0);
    this.source = new AudioBufferSourceNode(context, { buffer });
    this.source.connect(new GainNode(context, { gain: loudness })).connect(out);
    this.source.start();
  }

  private alone(): AudioNode {
    this.context ??= new AudioContext();
    return this.context.destination;
  }

  readonly stop = (): void => {
    this.turn += 1;
    this.source?.stop();
    this.source = null;
  };

  readonly close = (): void => {
    this.stop();
    void this.context?.close();
    this.context = null;
  };
}
