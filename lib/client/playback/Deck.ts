import type { Cents } from "@/lib/units/quantities";
import { type FrameLoop, LoopReader } from "./LoopReader";
import type { RecordSamples, Stereo } from "./RecordSamples";
import { ROOM_FRAMES, type Stretch } from "./Stretch";
import { TapeResampler } from "./TapeResampler";

/** How fast and how high a record is heard. */
export interface Pace {
  /** Of the record's own speed. */
  speed: number;
  shiftCents: Cents;
}

/** Frames that are given out at once while the stretch gets under way. */
const PRIME_STEP_FRAMES = 128;
/** Of what goes into the stretch it is remembered so many steps back when it went in. */
const STEPS_KEPT = 256;

/** At its own speed and pitch a record needs no stretch, and is heard as it is. */
export function isAsItIs({ speed, shiftCents }: Pace): boolean {
  return speed === 1 && shiftCents === 0;
}

/** Frames of the record that are read for each one of what is to be heard as high as the shift says. */
function ratioOf({ shiftCents }: Pace): number {
  return 2 ** (shiftCents / 1200);
}

/**
 * One reading of a record, from a place on: straight, or through the stretch. Moving is done by reading faster or slower, and
 * the stretch mends the time: its own moving is off by up to 6 cents (a sine of 440 Hz, down an octave), its
 * stretching by less than a hundredth of one. The stretch needs what lies before that place
 * until it gives full sound, so it is first {@link prime}d unheard; then its first frame is that of the place.
 */
export class Deck {
  readonly reader: LoopReader;
  private pace: Pace = { speed: 1, shiftCents: 0 };
  private isStraight = true;
  private primeLeft = 0;
  /** Fractions of a frame that are still to go in. */
  private owed = 0;
  private readonly resampler: TapeResampler;
  private readonly input: Stereo = [new Float32Array(ROOM_FRAMES), new Float32Array(ROOM_FRAMES)];
  private readonly unheard: Stereo = [
    new Float32Array(PRIME_STEP_FRAMES),
    new Float32Array(PRIME_STEP_FRAMES),
  ];
  /** How much of the tape had gone in when so much had come out, step by step; the oldest is written over. */
  private readonly fedTape = new Float64Array(STEPS_KEPT);
  private readonly givenOut = new Float64Array(STEPS_KEPT);
  private steps = 0;
  private out = 0;

  constructor(
    samples: RecordSamples,
    private readonly stretch: Stretch,
  ) {
    this.reader = new LoopReader(samples);
    this.resampler = new TapeResampler(this.reader);
  }

  /** Frames that have to be given out unheard before a place is heard. */
  static primeFrames({ outputLatency, blockFrames }: Stretch, pace: Pace): number {
    if (isAsItIs(pace)) return 0;
    const frames = outputLatency + blockFrames / 2;
    return Math.ceil(frames / PRIME_STEP_FRAMES) * PRIME_STEP_FRAMES;
  }

  /** Goes to a frame of the record, to be heard from there on once it is ready. */
  begin(frame: number, pace: Pace, loop: FrameLoop | null): void {
    const { reader, stretch } = this;
    this.pace = pace;
    this.isStraight = isAsItIs(pace);
    this.primeLeft = Deck.primeFrames(stretch, pace);
    this.owed = 0;
    this.steps = 0;
    this.out = 0;
    const first = Math.round(frame);
    // From beyond a loop's end what lies before is not read round it.
    reader.setLoop(loop && first < loop.endFrame ? loop : null);
    if (this.isStraight) {
      reader.goTo(first);
      return;
    }
    const before = stretch.blockFrames + stretch.intervalFrames;
    const aheadOut = stretch.outputLatency - this.primeLeft;
    const ratio = ratioOf(pace);
    this.resampler.begin(first + (stretch.inputLatency - before) * ratio + aheadOut * pace.speed, ratio);
    this.resampler.read(this.input, before);
    stretch.seek(this.input, before, pace.speed / ratio);
    this.remember();
  }

  get isReady(): boolean {
    return this.primeLeft === 0;
  }

  /** Works toward being ready, for as many frames at most. */
  prime(frames: number): void {
    for (let done = 0; done < frames && this.primeLeft > 0; done += PRIME_STEP_FRAMES) {
      this.throughStretch(this.unheard, 0, PRIME_STEP_FRAMES);
      this.primeLeft -= PRIME_STEP_FRAMES;
    }
  }

  /** Speed and pitch from now on. Not between straight and stretched: that is another beginning. */
  setPace(pace: Pace): void {
    this.pace = pace;
    this.resampler.setRatio(ratioOf(pace));
  }

  setLoop(loop: FrameLoop | null): void {
    this.reader.setLoop(loop);
  }

  /** Gives out the next frames, from `offset` on. */
  render(into: Stereo, offset: number, count: number): void {
    if (!this.isStraight) {
      for (let done = 0; done < count; done += PRIME_STEP_FRAMES)
        this.throughStretch(into, offset + done, Math.min(PRIME_STEP_FRAMES, count - done));
      return;
    }
    this.reader.read(this.input, count);
    for (let channel = 0; channel < 2; channel += 1)
      into[channel]!.set(this.input[channel]!.subarray(0, count), offset);
  }

  /** Which frame of the tape is heard with the next frame that is given out. */
  heardTape(): number {
    if (this.isStraight) return this.reader.tape;
    const cameIn = this.out - this.stretch.outputLatency;
    const last = this.steps - 1;
    let step = last;
    while (step > 0 && step > last - STEPS_KEPT + 1 && this.givenOut[step % STEPS_KEPT]! > cameIn) step -= 1;
    const at = step % STEPS_KEPT;
    const next = Math.min(step + 1, last) % STEPS_KEPT;
    const span = this.givenOut[next]! - this.givenOut[at]!;
    const share = span > 0 ? (cameIn - this.givenOut[at]!) / span : 0;
    const fed = this.fedTape[at]! + share * (this.fedTape[next]! - this.fedTape[at]!);
    return fed - this.stretch.inputLatency * ratioOf(this.pace);
  }

  /** Which frame of the record is heard with the next frame that is given out. */
  heardFrame(): number {
    return this.reader.frameAt(this.heardTape());
  }

  /** How often the loop went back to its start since it was last asked, as heard. */
  takeTurns(): number {
    return this.reader.takeTurns(this.heardTape());
  }

  /** Which frame of the record will be heard after so many more frames are given out. */
  heardFrameAfter(frames: number): number {
    const { loop } = this.reader;
    const frame = this.heardFrame() + frames * this.pace.speed;
    if (!loop?.isJoined || this.heardFrame() >= loop.endFrame || frame < loop.endFrame) return frame;
    return frame - (loop.endFrame - loop.startFrame);
  }

  /** Whether what was read already goes another way than a loop, or none, that holds from now on. */
  isBeyond(loop: FrameLoop | null): boolean {
    if (this.isStraight) return false;
    const heard = this.heardFrame();
    if (this.reader.nextFrame < heard) return true;
    return loop !== null && heard < loop.endFrame && this.reader.nextFrame > loop.endFrame;
  }

  /** Whether a loop that is not joined has been heard to its end. */
  get isSpent(): boolean {
    const { endedAtTape } = this.reader;
    return endedAtTape !== null && this.heardTape() >= endedAtTape;
  }

  private throughStretch(into: Stereo, offset: number, count: number): void {
    this.owed += (count * this.pace.speed) / ratioOf(this.pace);
    const inCount = Math.floor(this.owed);
    this.owed -= inCount;
    this.resampler.read(this.input, inCount);
    this.stretch.process(this.input, inCount, into, offset, count);
    this.out += count;
    this.remember();
  }

  private remember(): void {
    const at = this.steps % STEPS_KEPT;
    // What is owed has gone in as far as the ear is concerned.
    this.fedTape[at] = this.resampler.tape + this.owed * ratioOf(this.pace);
    this.givenOut[at] = this.out;
    this.steps += 1;
  }
}
