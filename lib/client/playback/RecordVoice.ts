import type { Seconds } from "@/lib/units/quantities";
import { BeatClicks } from "./BeatClicks";
import { countIn } from "./countIn";
import { Deck, isAsItIs, type Pace } from "./Deck";
import type { FrameLoop } from "./LoopReader";
import type { Loop, LoopManner, PlaybackCommand, PlaybackReport } from "./playbackMessages";
import type { RecordSamples, Stereo } from "./RecordSamples";
import type { Stretch } from "./Stretch";
import { ladderSpeed } from "./speedLadder";

/** How long one reading gives way to another. */
const FADE_SEC: Seconds = 0.005;
/** How much of a stretch is got under way with each portion: some of them, and the key is heard. */
const PRIME_FRAMES = 1024;

/** A reading that is to be heard after so many more frames. */
interface Rising {
  deck: Deck;
  holdFrames: number;
  /** How many of these, at the end, are counted in: they go by the speed, as silence before them does not. */
  countFrames: number;
  /** Whether it leads elsewhere, or goes on where the record is heard in another way. */
  isJump: boolean;
}

/**
 * Plays a record from memory: at any speed and pitch, round a loop, counted in, with a click on each beat. Portions of any
 * size come out sample for sample alike, so that what is tested at once is what the audio thread plays. Each start, jump and
 * change between straight and stretched is another reading, which takes the place of the one before in 5 ms.
 */
export class RecordVoice {
  private readonly decks: readonly Deck[];
  private readonly stretch: Stretch;
  private sounding: Deck | null = null;
  private falling: { deck: Deck; framesLeft: number } | null = null;
  private rising: Rising | null = null;
  /** Frames since `sounding` began. */
  private riseFrames = 0;
  private isPlaying = false;
  private isEnded = false;
  private standingFrame = 0;
  private pace: Pace = { speed: 1, shiftCents: 0 };
  private loop: Loop | null = null;
  private manner: LoopManner | null = null;
  private timesThrough = 0;
  private readonly clicks: BeatClicks;
  private readonly fadeFrames: number;
  private readonly room: Stereo = [new Float32Array(PRIME_FRAMES), new Float32Array(PRIME_FRAMES)];

  constructor(
    private readonly samples: RecordSamples,
    stretches: readonly [Stretch, Stretch, Stretch],
  ) {
    this.decks = stretches.map((stretch) => new Deck(samples, stretch));
    this.stretch = stretches[0];
    this.fadeFrames = Math.round(FADE_SEC * samples.rateHz);
    this.clicks = new BeatClicks(samples.rateHz);
  }

  /** Carries a command out. */
  obey(command: PlaybackCommand): void {
    switch (command.kind) {
      case "play":
        this.isPlaying = true;
        this.isEnded = false;
        this.jump(this.frameOf(command.sec), command.isCountedIn);
        break;
      case "pause":
        this.stop(this.frameOf(command.sec));
        break;
      case "seek":
        this.isEnded = false;
        if (this.isPlaying) this.jump(this.frameOf(command.sec), false);
        else this.standingFrame = this.frameOf(command.sec);
        break;
      case "pace":
        this.setPace(command.pace);
        break;
      case "loop":
        this.loop = command.loop;
        this.timesThrough = command.timesThrough;
        this.turnLoop();
        break;
      case "manner":
        this.manner = command.manner;
        this.turnLoop();
        break;
      case "beats":
        this.clicks.setBeats(command.beats);
        break;
      case "clicks":
        this.clicks.isOn = command.isOn;
    }
  }

  /**
   * Gives out the next portion of at most 1,024 frames, in place of what was in there.
   * @param clicks mono
   */
  render(into: Stereo, clicks: Float32Array, count: number): void {
    for (const channel of into) channel.fill(0, 0, count);
    clicks.fill(0, 0, count);
    const offset = this.rise(count);
    const { sounding } = this;
    if (this.falling) this.fall(into, count);
    if (sounding) this.renderSounding(sounding, into, offset, count);
    this.clicks.addTo(clicks, count);
  }

  /** Where it is, for the frame that is given out next. */
  now(): Omit<PlaybackReport, "number" | "atSec"> {
    const { isPlaying, isEnded, timesThrough, pace } = this;
    return {
      ...{ isPlaying, isEnded, timesThrough, speed: pace.speed },
      isSounding: this.sounding !== null && !this.rising?.isJump,
      sec: this.heardFrame() / this.samples.rateHz,
    };
  }

  private heardFrame(): number {
    if (this.rising?.isJump || !this.sounding) return this.standingFrame;
    return this.sounding.heardFrame();
  }

  private frameOf(sec: Seconds): number {
    return Math.min(this.samples.frameCount, Math.max(0, Math.round(sec * this.samples.rateHz)));
  }

  /** The loop in frames, with what is heard before it. */
  private frameLoop(): FrameLoop | null {
    if (!this.loop) return null;
    const { seamMs, gapSec, preRollSec } = this.manner ?? { seamMs: 20, gapSec: 0, preRollSec: 0 };
    const startFrame = this.frameOf(this.loop.startSec - preRollSec);
    const endFrame = Math.max(startFrame + 2, this.frameOf(this.loop.endSec));
    const seamFrames = Math.round((seamMs / 1000) * this.samples.rateHz);
    const isJoined = gapSec === 0 && this.countInFrom(startFrame) === null;
    return { startFrame, endFrame, seamFrames, isJoined };
  }

  private countInFrom(frame: number) {
    const { beats } = this.clicks;
    const bars = this.manner?.countInBars ?? 0;
    return beats && countIn(beats, frame / this.samples.rateHz, bars, this.pace.speed);
  }

  /** Goes to another place of the record; counted in, or after some silence, what sounded ends at once. */
  private jump(frame: number, isCountedIn: boolean, silentFrames = 0): void {
    const counted = isCountedIn ? this.countInFrom(frame) : null;
    this.clicks.drop();
    const { rateHz } = this.samples;
    for (const { afterSec, isFirst } of counted?.clicks ?? [])
      this.clicks.schedule(silentFrames + Math.round(afterSec * rateHz), isFirst);
    const countFrames = Math.round((counted?.lengthSec ?? 0) * rateHz);
    const holdFrames = silentFrames + countFrames;
    this.standingFrame = frame;
    if (holdFrames > 0) this.letFall();
    this.begin(frame, holdFrames, true, countFrames);
  }

  /** Has another reading begin, which is heard after so many frames or as soon as it can be. */
  private begin(frame: number, holdFrames: number, isJump: boolean, countFrames = 0): void {
    const busy = [this.sounding, this.falling?.deck];
    const deck = this.rising?.deck ?? this.decks.find((each) => !busy.includes(each))!;
    deck.begin(frame, this.pace, this.frameLoop());
    this.rising = { deck, holdFrames: Math.max(holdFrames, this.primeHold()), countFrames, isJump };
  }

  /** How long the stretch takes to get under way. */
  private primeHold(): number {
    return Deck.primeFrames(this.stretch, this.pace) / (PRIME_FRAMES / 128);
  }

  /** Goes on where the record is heard in another way: straight in place of stretched, or another loop. */
  private goOn(): void {
    if (this.rising?.isJump || !this.sounding) {
      if (this.rising) this.begin(this.standingFrame, this.rising.holdFrames, true, this.rising.countFrames);
      return;
    }
    const holdFrames = this.primeHold();
    this.begin(this.sounding.heardFrameAfter(holdFrames), holdFrames, false);
  }

  private setPace(pace: Pace): void {
    const wasStraight = isAsItIs(this.pace);
    const isSame = this.pace.speed === pace.speed && this.pace.shiftCents === pace.shiftCents;
    const longer = this.pace.speed / pace.speed;
    this.pace = pace;
    if (isSame) return;
    this.spreadCount(longer);
    if (isAsItIs(pace) !== wasStraight || this.rising) this.goOn();
    if (!isAsItIs(pace) && !wasStraight) this.sounding?.setPace(pace);
  }

  /** What is still to be counted in takes so many times as long. */
  private spreadCount(factor: number): void {
    const { rising } = this;
    const counted = Math.min(rising?.holdFrames ?? 0, rising?.countFrames ?? 0);
    const silent = (rising?.holdFrames ?? 0) - counted;
    this.clicks.spread(silent, factor);
    if (!rising) return;
    rising.countFrames = Math.round(counted * factor);
    rising.holdFrames = silent + rising.countFrames;
  }

  private turnLoop(): void {
    const loop = this.frameLoop();
    if (this.rising) this.rising.deck.setLoop(loop);
    if (!this.sounding) return;
    if (this.sounding.isBeyond(loop)) this.goOn();
    else this.sounding.setLoop(loop);
  }

  private stop(frame: number): void {
    this.isPlaying = false;
    this.letFall();
    this.rising = null;
    this.standingFrame = frame;
    this.clicks.drop();
  }

  private letFall(): void {
    if (this.sounding) this.falling = { deck: this.sounding, framesLeft: this.fadeFrames };
    this.sounding = null;
  }

  /** Brings what is rising on, by a portion. @returns where in the portion it is first heard; 0 where nothing rises */
  private rise(count: number): number {
    const { rising } = this;
    if (!rising) return 0;
    rising.deck.prime((PRIME_FRAMES * count) / 128);
    const holdFrames = rising.holdFrames;
    rising.holdFrames = Math.max(0, holdFrames - count);
    if (holdFrames >= count || !rising.deck.isReady) return 0;
    // What sounds is let go for the whole portion: it fades over several.
    this.letFall();
    this.sounding = rising.deck;
    this.rising = null;
    this.riseFrames = 0;
    return holdFrames;
  }

  private fall(into: Stereo, count: number): void {
    const falling = this.falling!;
    const length = Math.min(count, falling.framesLeft);
    falling.deck.render(this.room, 0, length);
    for (let index = 0; index < length; index += 1) {
      const gain = (falling.framesLeft - index) / this.fadeFrames;
      for (let channel = 0; channel < 2; channel += 1)
        into[channel]![index] = into[channel]![index]! + gain * this.room[channel]![index]!;
    }
    falling.framesLeft -= length;
    if (falling.framesLeft === 0) this.falling = null;
  }

  private renderSounding(deck: Deck, into: Stereo, offset: number, count: number): void {
    const fromFrame = deck.heardFrame();
    deck.render(this.room, 0, count - offset);
    for (let index = 0; index < count - offset; index += 1) {
      const gain = Math.min(1, (this.riseFrames + index + 1) / this.fadeFrames);
      for (let channel = 0; channel < 2; channel += 1) {
        const out = into[channel]!;
        out[offset + index] = out[offset + index]! + gain * this.room[channel]![index]!;
      }
    }
    this.riseFrames += count - offset;
    const turns = deck.takeTurns();
    const toFrame = deck.heardFrame();
    const loop = deck.reader.loop;
    this.clicks.over(
      turns > 0 && loop
        ? [
            [fromFrame, loop.endFrame],
            [loop.startFrame, toFrame],
          ]
        : [[fromFrame, toFrame]],
      offset,
      count,
    );
    for (let turn = 0; turn < turns; turn += 1) this.turn();
    if (deck.isSpent) this.beginAgain();
    else if (toFrame >= this.samples.frameCount) {
      this.stop(this.samples.frameCount);
      this.isEnded = true;
    }
  }

  /** Once more through the loop. */
  private turn(): void {
    this.timesThrough += 1;
    const ladder = this.manner?.ladder;
    if (ladder?.isOn) this.setPace({ ...this.pace, speed: ladderSpeed(ladder, this.timesThrough) });
  }

  /** After the end of a loop that is not joined: silence, counting in, and its beginning. */
  private beginAgain(): void {
    const loop = this.frameLoop();
    if (!loop) return;
    this.letFall();
    this.standingFrame = loop.startFrame;
    this.turn();
    this.jump(loop.startFrame, true, Math.round((this.manner?.gapSec ?? 0) * this.samples.rateHz));
  }
}
