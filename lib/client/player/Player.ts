import type { Seconds } from "@/lib/units/quantities";
import { type LoudLoop, levelDbfs, listenOn, NOT_LOUD } from "./loudLoop";
import { METER_SIZE, type OutputChain, openOutputChain } from "./outputChain";

export interface Loop {
  startSec: Seconds;
  endSec: Seconds;
}

/** What the transport shows. A new object whenever anything in it changes. */
export interface PlayerState {
  isPlaying: boolean;
  /** 0.25 to 1; the pitch is kept. */
  speed: number;
  /** 0 to 1. */
  level: number;
  loop: Loop | null;
  /** How often the loop has gone back to its start. */
  timesThrough: number;
  /** Looped loud for long. */
  isCautioned: boolean;
  /** Why the record cannot be played, in words; null while it can. */
  fault: string | null;
}

export const SPEEDS = { slowest: 0.25, fastest: 1 } as const;

/** Plays one record. It owns the media element, the output chain and the frame clock; {@link close} ends them all. */
export class Player {
  readonly media = new Audio();
  private state: PlayerState = {
    isPlaying: false,
    speed: 1,
    level: 0.8,
    loop: null,
    timesThrough: 0,
    isCautioned: false,
    fault: null,
  };
  private readonly scope = new AbortController();
  private readonly stateListeners = new Set<() => void>();
  private readonly timeListeners = new Set<(timeSec: Seconds) => void>();
  private chain: OutputChain | null = null;
  private frame = 0;
  private loud: LoudLoop = NOT_LOUD;
  private meteredAtMs = 0;
  private readonly meterSamples = new Float32Array(METER_SIZE);

  constructor(
    url: string,
    readonly durationSec: Seconds,
  ) {
    const { media } = this;
    media.preload = "auto";
    media.preservesPitch = true;
    media.src = url;
    const on = (name: string, act: () => void) =>
      media.addEventListener(name, act, { signal: this.scope.signal });
    on("play", () => this.begin());
    on("pause", () => this.end());
    on("ended", () => this.end());
    on("seeked", () => this.tellTime());
    // Frames stop in a hidden tab; these events go on, so that the loop holds there too.
    on("timeupdate", () => this.turnAtLoopEnd());
    on("error", () => this.set({ isPlaying: false, fault: faultWords(media.error) }));
  }

  readonly now = (): PlayerState => this.state;

  get timeSec(): Seconds {
    return this.media.currentTime;
  }

  /** Calls back when the state changes; returns the way to stop. */
  readonly watch = (listener: () => void): (() => void) => {
    this.stateListeners.add(listener);
    return () => this.stateListeners.delete(listener);
  };

  /** Calls back with the time, every frame while playing and after each seek; returns the way to stop. */
  readonly onTime = (listener: (timeSec: Seconds) => void): (() => void) => {
    this.timeListeners.add(listener);
    return () => this.timeListeners.delete(listener);
  };

  async play(): Promise<void> {
    this.chain ??= openOutputChain(this.media);
    this.chain.setLevel(this.state.level);
    const { loop } = this.state;
    if (loop && (this.timeSec < loop.startSec - 0.01 || this.timeSec >= loop.endSec - 0.02))
      this.seek(loop.startSec);
    else if (this.media.ended) this.seek(0);
    try {
      await this.chain.resume();
      await this.media.play();
      this.set({ fault: null });
    } catch (cause) {
      // A pause before playing began is no fault.
      if (cause instanceof DOMException && cause.name === "AbortError") return;
      this.set({ isPlaying: false, fault: faultWords(this.media.error) });
    }
  }

  pause(): void {
    this.media.pause();
  }

  toggle(): void {
    if (this.state.isPlaying) this.pause();
    else void this.play();
  }

  seek(timeSec: Seconds): void {
    this.media.currentTime = Math.min(Math.max(0, timeSec), this.durationSec);
    this.tellTime();
  }

  setSpeed(speed: number): void {
    const kept = Math.min(SPEEDS.fastest, Math.max(SPEEDS.slowest, Math.round(speed * 100) / 100));
    this.media.playbackRate = kept;
    this.set({ speed: kept });
  }

  setLevel(level: number): void {
    const kept = Math.min(1, Math.max(0, level));
    this.chain?.setLevel(kept);
    this.set({ level: kept });
  }

  setLoop(loop: Loop | null): void {
    this.set({ loop, timesThrough: 0 });
    if (loop && this.state.isPlaying && (this.timeSec < loop.startSec || this.timeSec > loop.endSec))
      this.seek(loop.startSec);
  }

  close(): void {
    this.scope.abort();
    cancelAnimationFrame(this.frame);
    this.media.pause();
    this.media.removeAttribute("src");
    this.media.load();
    this.chain?.close();
    this.stateListeners.clear();
    this.timeListeners.clear();
  }

  private begin(): void {
    this.set({ isPlaying: true });
    cancelAnimationFrame(this.frame);
    this.meteredAtMs = performance.now();
    const onFrame = () => {
      this.turnAtLoopEnd();
      this.tellTime();
      this.meter();
      this.frame = requestAnimationFrame(onFrame);
    };
    this.frame = requestAnimationFrame(onFrame);
  }

  private end(): void {
    cancelAnimationFrame(this.frame);
    this.set({ isPlaying: false });
    this.tellTime();
  }

  private turnAtLoopEnd(): void {
    const { loop, isPlaying, timesThrough } = this.state;
    if (!loop || !isPlaying || this.media.seeking || this.timeSec < loop.endSec) return;
    this.set({ timesThrough: timesThrough + 1 });
    this.seek(loop.startSec);
  }

  /** Once a second, how loud it is. */
  private meter(): void {
    const elapsedSec = (performance.now() - this.meteredAtMs) / 1000;
    if (elapsedSec < 1 || !this.chain) return;
    this.meteredAtMs = performance.now();
    this.chain.readOutput(this.meterSamples);
    this.loud = listenOn(this.loud, {
      elapsedSec: Math.min(elapsedSec, 5),
      isLooping: this.state.loop !== null,
      levelDbfs: levelDbfs(this.meterSamples),
    });
    if (this.loud.isCautioned !== this.state.isCautioned) this.set({ isCautioned: this.loud.isCautioned });
  }

  private tellTime(): void {
    for (const listener of this.timeListeners) listener(this.timeSec);
  }

  private set(fields: Partial<PlayerState>): void {
    this.state = { ...this.state, ...fields };
    for (const listener of this.stateListeners) listener();
  }
}

function faultWords(error: MediaError | null): string {
  return error?.code === MediaError.MEDIA_ERR_SRC_NOT_SUPPORTED
    ? "This browser cannot play the record, or you may no longer open it. Everything written is kept. Load the page again."
    : "The record stopped coming. Everything written is kept. Check the connection and press play again.";
}
