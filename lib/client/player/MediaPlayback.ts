import type { Seconds } from "@/lib/units/quantities";
import type { Pace } from "../playback/Deck";
import type { Loop, LoopManner } from "../playback/playbackMessages";
import { ladderSpeed } from "../playback/speedLadder";
import type { OutputChain } from "./outputChain";
import type { Playback, PlaybackEvents, Sounding } from "./Playback";

/** What the browser's element does well with the pitch kept. */
export const MEDIA_SPEEDS = { slowest: 0.25, fastest: 1 } as const;

/**
 * Plays a record by the browser's media element, as its bytes come: at once, and whatever its length. It keeps the pitch, moves
 * nothing, loops by going back, and neither counts in nor clicks.
 */
export class MediaPlayback implements Playback {
  private readonly media = new Audio();
  readonly isExact = false;
  private readonly scope = new AbortController();
  private chain: OutputChain | null = null;
  private loop: Loop | null = null;
  private manner: LoopManner | null = null;
  private timesThrough = 0;

  constructor(
    url: string,
    private readonly durationSec: Seconds,
    private readonly events: PlaybackEvents,
  ) {
    const { media } = this;
    media.preload = "auto";
    media.preservesPitch = true;
    media.src = url;
    const on = (name: string, act: () => void) =>
      media.addEventListener(name, act, { signal: this.scope.signal });
    on("play", () => events.began());
    on("pause", () => events.stopped());
    on("ended", () => this.endOrTurn());
    on("seeked", () => events.moved());
    on("timeupdate", () => {
      this.look();
      events.passed();
    });
    on("error", () => events.failed(faultWords(media.error)));
  }

  /** Lets it out through the chain from now on. */
  connect(chain: OutputChain): void {
    this.chain = chain;
    chain.context.createMediaElementSource(this.media).connect(chain.record);
  }

  get timeSec(): Seconds {
    return this.media.currentTime;
  }

  get isPaused(): boolean {
    return this.media.paused;
  }

  get isRunning(): boolean {
    const { paused, seeking, readyState } = this.media;
    return !paused && !seeking && readyState >= HTMLMediaElement.HAVE_FUTURE_DATA;
  }

  sounding(): Sounding {
    const { currentTime, playbackRate } = this.media;
    return { sec: currentTime, atSec: this.chain?.context.currentTime ?? 0, speed: playbackRate };
  }

  async play(): Promise<void> {
    if (this.media.ended) this.seek(0);
    await this.start();
  }

  private async start(): Promise<void> {
    try {
      await this.media.play();
    } catch (cause) {
      // A pause before playing began is no fault.
      if (cause instanceof DOMException && cause.name === "AbortError") return;
      if (this.scope.signal.aborted) return;
      this.events.failed(faultWords(this.media.error));
    }
  }

  pause(): void {
    this.media.pause();
  }

  seek(timeSec: Seconds): void {
    this.media.currentTime = Math.min(Math.max(0, timeSec), this.durationSec);
    this.events.moved();
  }

  setPace({ speed }: Pace): void {
    this.media.playbackRate = Math.min(MEDIA_SPEEDS.fastest, Math.max(MEDIA_SPEEDS.slowest, speed));
  }

  setLoop(loop: Loop | null, timesThrough: number): void {
    this.loop = loop;
    this.timesThrough = timesThrough;
  }

  setManner(manner: LoopManner): void {
    this.manner = manner;
  }

  setBeats(): void {}

  setClicking(): void {}

  /** At the end of the loop back to its start. */
  look(): void {
    const { loop, media } = this;
    if (loop && !media.paused && !media.seeking && media.currentTime >= loop.endSec) this.turn(loop);
  }

  /** A loop that ends just before the record does may be looked at too late, when the element has stopped by itself. */
  private endOrTurn(): void {
    if (this.loop === null) {
      this.events.ended();
      return;
    }
    this.turn(this.loop);
    void this.start();
  }

  private turn(loop: Loop): void {
    const { media, manner } = this;
    this.timesThrough += 1;
    if (manner?.ladder.isOn)
      this.setPace({ speed: ladderSpeed(manner.ladder, this.timesThrough), shiftCents: 0 });
    this.events.turned(this.timesThrough, media.playbackRate);
    this.seek(loop.startSec - (manner?.preRollSec ?? 0));
  }

  /** Calls back when it has told that it stopped, and where it ran out, has gone round its loop: the browser tells later than it stops. */
  onceStopped(act: () => void): void {
    const { media, scope } = this;
    media.addEventListener(media.ended ? "ended" : "pause", act, { once: true, signal: scope.signal });
  }

  /** Gives its place up: it tells nothing more and goes round no loop, sounds on for so long, and is closed. */
  leave(soundsForMs: number): void {
    this.scope.abort();
    setTimeout(() => this.close(), soundsForMs);
  }

  close(): void {
    this.scope.abort();
    this.media.pause();
    this.media.removeAttribute("src");
    this.media.load();
  }
}

function faultWords(error: MediaError | null): string {
  return error?.code === MediaError.MEDIA_ERR_SRC_NOT_SUPPORTED
    ? "This browser cannot play the record, or you may no longer open it. Everything written is kept. Load the page again."
    : "The record stopped coming. Everything written is kept. Check the connection and press play again.";
}
