import { likeness, seamGains } from "./loopSeam";
import type { RecordSamples, Stereo } from "./RecordSamples";

/** A loop, in frames of the record. */
export interface FrameLoop {
  startFrame: number;
  endFrame: number;
  /** How long its end and its beginning are heard together. */
  seamFrames: number;
  /** Whether the beginning follows the end at once; else reading ends in silence. */
  isJoined: boolean;
}

/** From which frame of the tape on which frame of the record is read. */
interface Leg {
  tape: number;
  frame: number;
}

/**
 * Reads a record on and on, round its loop, as one tape that has no step in it. The seam lies before the loop's end: there
 * the end fades while what comes before the loop's beginning rises, so that what begins with the loop is heard whole and what
 * begins after it not at all, and each time through is as long as the loop.
 */
export class LoopReader {
  private frame = 0;
  private tapeFrames = 0;
  private legs: Leg[] = [{ tape: 0, frame: 0 }];
  private kept: FrameLoop | null = null;
  private alike: number | null = null;
  private endTape: number | null = null;
  private beginning: Stereo = [new Float32Array(0), new Float32Array(0)];

  constructor(private readonly samples: RecordSamples) {}

  /** Frames read since the last {@link goTo}. */
  get tape(): number {
    return this.tapeFrames;
  }

  /** The frame of the record that is read next. */
  get nextFrame(): number {
    return this.frame;
  }

  get loop(): FrameLoop | null {
    return this.kept;
  }

  /** At which frame of the tape a loop that is not joined ended; null while it has not. */
  get endedAtTape(): number | null {
    return this.endTape;
  }

  /** Begins a new tape at a frame of the record, a whole number; it may lie before the record. */
  goTo(frame: number): void {
    this.frame = frame;
    this.tapeFrames = 0;
    this.legs = [{ tape: 0, frame }];
    this.endTape = null;
  }

  /** Reads on in another loop, or in none. What is beyond its end already is read on without it. */
  setLoop(loop: FrameLoop | null): void {
    if (!loop) this.kept = null;
    else {
      const longest = Math.floor((loop.endFrame - loop.startFrame) / 2);
      this.kept = { ...loop, seamFrames: Math.max(1, Math.min(loop.seamFrames, longest)) };
    }
    this.alike = null;
  }

  /** Reads the next frames of the tape, from the beginning of `into`. */
  read(into: Stereo, count: number): void {
    for (let done = 0; done < count; ) {
      if (this.endTape !== null) {
        for (const channel of into) channel.fill(0, done, count);
        this.tapeFrames += count - done;
        return;
      }
      done += this.readLeg(into, done, count - done);
    }
  }

  /** Which frame of the record lies at a frame of the tape, fractions kept; times through the loop are walked back over. */
  frameAt(tape: number): number {
    const leg = this.legs.findLast((each) => each.tape <= tape) ?? this.legs[0]!;
    return leg.frame + tape - leg.tape;
  }

  /** How often the loop went back to its start by a frame of the tape; what lies before is forgotten. */
  takeTurns(tape: number): number {
    let turns = 0;
    while (this.legs.length > 1 && this.legs[1]!.tape <= tape) {
      this.legs.shift();
      turns += 1;
    }
    return turns;
  }

  /** @returns how many frames it read, one at least */
  private readLeg(into: Stereo, offset: number, count: number): number {
    const loop = this.kept;
    const isInside = loop !== null && this.frame < loop.endFrame;
    const seamStart = isInside ? loop.endFrame - loop.seamFrames : Number.POSITIVE_INFINITY;
    if (!isInside || this.frame < seamStart) {
      const length = Math.min(count, seamStart - this.frame);
      this.samples.read(this.frame, into, offset, length);
      this.advance(length);
      return length;
    }
    const length = Math.min(count, loop.endFrame - this.frame);
    this.samples.read(this.frame, into, offset, length);
    this.cross(loop, into, offset, length);
    this.advance(length);
    if (this.frame < loop.endFrame) return length;
    if (loop.isJoined) {
      this.frame = loop.startFrame;
      this.legs.push({ tape: this.tapeFrames, frame: loop.startFrame });
    } else this.endTape = this.tapeFrames;
    return length;
  }

  private advance(frames: number): void {
    this.frame += frames;
    this.tapeFrames += frames;
  }

  /** Lets the end fade, and the beginning rise where it follows at once. */
  private cross(loop: FrameLoop, into: Stereo, offset: number, length: number): void {
    const { seamFrames, startFrame, endFrame, isJoined } = loop;
    this.alike ??= isJoined ? this.likenessAt(loop) : 0;
    const first = this.frame - (endFrame - seamFrames);
    const beginning = this.room(seamFrames);
    if (isJoined) this.samples.read(startFrame - seamFrames + first, beginning, 0, length);
    for (let index = 0; index < length; index += 1) {
      const [ending, rising] = seamGains((first + index + 0.5) / seamFrames, this.alike);
      for (let channel = 0; channel < 2; channel += 1) {
        const out = into[channel]!;
        out[offset + index] = out[offset + index]! * ending;
        if (isJoined) out[offset + index] = out[offset + index]! + beginning[channel]![index]! * rising;
      }
    }
  }

  private likenessAt({ seamFrames, startFrame, endFrame }: FrameLoop): number {
    const ending: Stereo = [new Float32Array(seamFrames), new Float32Array(seamFrames)];
    const beginning = this.room(seamFrames);
    this.samples.read(endFrame - seamFrames, ending, 0, seamFrames);
    this.samples.read(startFrame - seamFrames, beginning, 0, seamFrames);
    return likeness(ending, beginning, seamFrames);
  }

  private room(frames: number): Stereo {
    if (this.beginning[0].length < frames)
      this.beginning = [new Float32Array(frames), new Float32Array(frames)];
    return this.beginning;
  }
}
