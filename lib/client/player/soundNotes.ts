import { level } from "@/lib/synth/mix";
import { seededNoise } from "@/lib/synth/seededNoise";
import { renderSteel, type SteelNote } from "@/lib/synth/steelVoice";
import type { Cents, Hertz, Seconds } from "@/lib/units/quantities";
import { noteTrace, type TracedNote } from "../song/noteTrace";
import { CEILING } from "./outputChain";

/** Longer passages are cut off here: what is to be heard alone is a few notes. */
export const LONGEST_SOUND_SEC: Seconds = 12;
/** The last note is let ring out this long after its end. */
const RING_SEC: Seconds = 0.1;

/**
 * Notes as a steel would play them, alone: from the first pick on, with their glides, in tune with the record.
 * @returns samples within ±{@link CEILING}; none where there are no notes
 */
export function notesAsSteel(
  notes: readonly TracedNote[],
  sampleRateHz: Hertz,
  tuningCents: Cents,
): Float32Array<ArrayBuffer> {
  if (notes.length === 0) return new Float32Array(0);
  const firstSec = Math.min(...notes.map(({ startSec }) => startSec));
  const lastSec = Math.max(...notes.map(({ endSec }) => endSec));
  const played = notes.map((note): SteelNote => {
    const pitch = noteTrace(note).map(({ timeSec, midi }) => ({ timeSec: timeSec - firstSec, midi }));
    const [startSec, endSec] = [note.startSec - firstSec, note.endSec - firstSec];
    return { startSec, endSec, pitch, vibrato: null, level: 0.4, swellSec: 0 };
  });
  const durationSec = Math.min(LONGEST_SOUND_SEC, lastSec - firstSec + RING_SEC);
  const samples = renderSteel(played, durationSec, sampleRateHz, seededNoise(1), tuningCents);
  level([samples]);
  return Float32Array.from(samples, (sample) => sample * CEILING);
}

/** Plays notes alone, one handful at a time: the next one, or {@link stop}, ends the one before. */
export class NoteSounder {
  private context: AudioContext | null = null;
  private source: AudioBufferSourceNode | null = null;

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
    if (notes.length === 0) return;
    const out = into ?? this.alone();
    const { context } = out;
    if (context instanceof AudioContext) await context.resume();
    const samples = notesAsSteel(notes, context.sampleRate, tuningCents);
    const buffer = new AudioBuffer({ length: samples.length, sampleRate: context.sampleRate });
    buffer.copyToChannel(samples, 0);
    this.stop();
    this.source = new AudioBufferSourceNode(context, { buffer });
    this.source.connect(new GainNode(context, { gain: loudness })).connect(out);
    this.source.start();
  }

  private alone(): AudioNode {
    this.context ??= new AudioContext();
    return this.context.destination;
  }

  readonly stop = (): void => {
    this.source?.stop();
    this.source = null;
  };

  readonly close = (): void => {
    this.stop();
    void this.context?.close();
    this.context = null;
  };
}
