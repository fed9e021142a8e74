import type { Hertz, Seconds } from "@/lib/units/quantities";

/** Beyond this what is told is another place in the song, not the same place told a little late. */
const JUMP_SEC: Seconds = 0.08;
/** What is told late or early is made good over this long. */
const MEND_SEC: Seconds = 0.4;

/**
 * Which second of a song is heard at which frame of the sound that is sent out. It runs by the sound's own frames and
 * is put right by what it is told of another clock (a record that is playing), by a ramp that nothing is heard of: only
 * when notes begin, glide and end depends on it, not their pitch.
 */
export class SongClock {
  private anchorSec: Seconds = 0;
  private anchorFrame = 0;
  /** Frames for each second of the song, from the anchor on. */
  private pace: number;
  /** The same before the anchor, where it makes good what it was off. */
  private mendPace: number;
  private running = false;

  constructor(private readonly sampleRateHz: Hertz) {
    this.pace = sampleRateHz;
    this.mendPace = sampleRateHz;
  }

  get isRunning(): boolean {
    return this.running;
  }

  secAt(frame: number): Seconds {
    const frames = frame - this.anchorFrame;
    return this.anchorSec + frames / (frames < 0 ? this.mendPace : this.pace);
  }

  /** Not rounded. */
  frameAt(sec: Seconds): number {
    const aheadSec = sec - this.anchorSec;
    return this.anchorFrame + aheadSec * (aheadSec < 0 ? this.mendPace : this.pace);
  }

  /** Runs from a frame on. @param speed seconds of the song for each second of the sound */
  start(sec: Seconds, frame: number, speed = 1): void {
    this.anchorSec = sec;
    this.anchorFrame = frame;
    this.pace = this.sampleRateHz / speed;
    this.mendPace = this.pace;
    this.running = true;
  }

  stop(): void {
    this.running = false;
  }

  /**
   * Hears from the other clock that a second of the song is, or was, heard at a frame.
   * @param nowFrame the next frame to be sent out: nothing before it can be changed
   * @returns whether the song jumped to another place, or began
   */
  hearOf(sec: Seconds, frame: number, speed: number, nowFrame: number): boolean {
    const toldSec = sec + ((nowFrame - frame) * speed) / this.sampleRateHz;
    const hereSec = this.secAt(nowFrame);
    if (!this.running || Math.abs(toldSec - hereSec) > JUMP_SEC) {
      this.start(toldSec, nowFrame, speed);
      return true;
    }
    // It is anchored where both will agree, and goes on until there at half its speed or more.
    const mendFrames = MEND_SEC * this.sampleRateHz;
    const metSec = Math.max(toldSec + MEND_SEC * speed, hereSec + 0.5 * MEND_SEC * speed);
    this.start(metSec, nowFrame + mendFrames, speed);
    this.mendPace = mendFrames / (metSec - hereSec);
    return false;
  }
}
