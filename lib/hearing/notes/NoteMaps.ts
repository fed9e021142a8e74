import type { Midi, Seconds } from "@/lib/units/quantities";
import { FRAME_RATE_HZ, frameSec } from "../learned/EarFeatures";
import { LOWEST_MIDI, type NoteMap, SEMITONES } from "../learned/layout";
import type { NoteFrame } from "../learned/stages/NoteHead";

/** First frame that sounds at this time or after. */
export function frameAt(timeSec: Seconds): number {
  return Math.max(0, Math.ceil((timeSec - frameSec(0)) * FRAME_RATE_HZ));
}

/** MIDI pitch of a semitone of the maps at A4 = 440 Hz. */
export function semitoneMidi(semitone: number): Midi {
  return LOWEST_MIDI + semitone;
}

/**
 * The learned note maps of a stretch of a record, kept. Semitone 0 is C1 at A4 = 440 Hz; frames count from the
 * record's first. Outside of the stretch, and in maps that the weights do not hold, everything is 0.
 */
export class NoteMaps {
  readonly firstFrame: number;
  /** The frame after the last. */
  readonly endFrame: number;
  private readonly planes: Partial<Record<NoteMap, Float32Array>> = {};
  private readonly names: readonly NoteMap[];

  /**
   * @param names maps by their place in each frame told
   * @param firstFrame first frame that is kept
   * @param endFrame the frame after the last that is kept
   */
  constructor(names: readonly NoteMap[], firstFrame: number, endFrame: number) {
    if (!(firstFrame >= 0 && endFrame >= firstFrame)) {
      throw new RangeError(`Frames ${firstFrame} to ${endFrame} are no stretch of a record.`);
    }
    this.firstFrame = firstFrame;
    this.endFrame = endFrame;
    this.names = names;
    for (const name of names) this.planes[name] = new Float32Array((endFrame - firstFrame) * SEMITONES);
  }

  /** Keeps one frame, where it lies in the stretch. */
  keep({ index, values, step }: NoteFrame): void {
    if (index < this.firstFrame || index >= this.endFrame) return;
    const row = (index - this.firstFrame) * SEMITONES;
    this.names.forEach((name, map) => {
      const plane = this.planes[name]!;
      for (let s = 0; s < SEMITONES; s++) plane[row + s] = values[s * step + map]!;
    });
  }

  at(map: NoteMap, frame: number, semitone: number): number {
    if (frame < this.firstFrame || frame >= this.endFrame || semitone < 0 || semitone >= SEMITONES) return 0;
    const plane = this.planes[map];
    return plane ? plane[(frame - this.firstFrame) * SEMITONES + semitone]! : 0;
  }

  /**
   * How likely what arrives here was moved by a pedal or lever rather than by the bar; it means something only where
   * something arrives. Null where the weights do not tell.
   */
  pedalAt(frame: number, semitone: number): number | null {
    return this.planes.pedal ? this.at("pedal", frame, semitone) : null;
  }

  /** Mean over the frames `from` to `to`, both included. */
  mean(map: NoteMap, from: number, to: number, semitone: number): number {
    let sum = 0;
    for (let frame = from; frame <= to; frame++) sum += this.at(map, frame, semitone);
    return sum / (to - from + 1);
  }

  /** Largest over the frames `from` to `to`, both included. */
  most(map: NoteMap, from: number, to: number, semitone: number): number {
    let most = 0;
    for (let frame = from; frame <= to; frame++) most = Math.max(most, this.at(map, frame, semitone));
    return most;
  }
}
