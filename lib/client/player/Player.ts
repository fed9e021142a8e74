import {
  keptListening,
  LISTENING_AT_FIRST,
  type ListeningSettings,
} from "@/lib/document/records/ListeningSettings";
import type { Cents, Seconds } from "@/lib/units/quantities";
import type { TracedNote } from "../song/noteTrace";
import { Watched } from "../watched/Watched";
import { type LoudLoop, levelDbfs, listenOn, NOT_LOUD } from "./loudLoop";
import { METER_SIZE, type OutputChain, openOutputChain } from "./outputChain";
import { AFTER_SEC, BEFORE_SEC, bandsAt } from "./partialBands";

export interface Loop {
  startSec: Seconds;
  endSec: Seconds;
}

/** What the transport shows. */
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
  /** Whether notes are being heard in the record, with all else faint. */
  isOnNotes: boolean;
  /** Why the record cannot be played, in words; null while it can. */
  fault: string | null;
}

/** Notes that are heard in the record, and where the player was before. */
interface OnNotes {
  notes: readonly TracedNote[];
  tuningCents: Cents;
  endSec: Seconds;
  backSec: Seconds;
  wasPlaying: boolean;
}

/** How often it is looked at how loud it is. */
const METER_MS = 1000;

export const SPEEDS = { slowest: 0.25, fastest: 1 } as const;

const AT_FIRST: PlayerState = {
  isPlaying: false,
  speed: 1,
  level: 0.8,
  loop: null,
  timesThrough: 0,
  isCautioned: false,
  isOnNotes: false,
  fault: null,
};

/** Plays one record. It owns the media element, the output chain and the frame clock; {@link close} ends them all. */
export class Player extends Watched<PlayerState> {
  readonly media = new Audio();
  private onNotes: OnNotes | null = null;
  private readonly scope = new AbortController();
  private readonly timeListeners = new Set<(timeSec: Seconds) => void>();
  private chain: OutputChain | null = null;
  private frame = 0;
  private settings = LISTENING_AT_FIRST;
  private isEndless = false;
  private endlessTimer: ReturnType<typeof setInterval> | undefined;
  private loud: LoudLoop = NOT_LOUD;
  private meteredAtMs = 0;
  private readonly meterSamples = new Float32Array(METER_SIZE);

  constructor(
    url: string,
    readonly durationSec: Seconds,
  ) {
    super(AT_FIRST);
    const { media } = this;
    media.preload = "auto";
    media.preservesPitch = true;
    media.src = url;
    const on = (name: string, act: () => void) =>
      media.addEventListener(name, act, { signal: this.scope.signal });
    on("play", () => this.begin());
    on("pause", () => this.end());
    on("ended", () => {
      this.end();
      this.leaveNotes();
    });
    on("seeked", () => this.tellTime());
    // Frames stop in a hidden tab; these events go on, so that the loop holds there too.
    on("timeupdate", () => this.turn());
    on("error", () => this.tell({ isPlaying: false, fault: faultWords(media.error) }));
  }

  get timeSec(): Seconds {
    return this.media.currentTime;
  }

  /**
   * Whether the record runs: it may be playing and yet be waiting for its bytes, or be on its way to another place.
   */
  get isRunning(): boolean {
    const { paused, seeking, readyState } = this.media;
    return !paused && !seeking && readyState >= HTMLMediaElement.HAVE_FUTURE_DATA;
  }

  /** The way to the ears; null before it was wanted. */
  get output(): OutputChain | null {
    return this.chain;
  }

  /** The way to the ears, opened when it is first wanted: from a person's own act, or browsers keep it silent. */
  openOutput(): OutputChain {
    this.chain ??= openOutputChain(this.media);
    this.chain.setLevel(this.now().level);
    return this.chain;
  }

  /** Calls back with the time, every frame while playing and after each seek; returns the way to stop. */
  readonly onTime = (listener: (timeSec: Seconds) => void): (() => void) => {
    this.timeListeners.add(listener);
    return () => this.timeListeners.delete(listener);
  };

  async play(): Promise<void> {
    const { loop } = this.now();
    if (loop && (this.timeSec < loop.startSec - 0.01 || this.timeSec >= loop.endSec - 0.02))
      this.seek(loop.startSec);
    else if (this.media.ended) this.seek(0);
    await this.start();
  }

  /**
   * Plays notes where they sound in the record, all else faint, from a little before the first to the end of the last;
   * then the player is where it was, and plays on if it did. Pausing goes back at once, seeking stays where it leads.
   */
  async playNotes(notes: readonly TracedNote[], tuningCents: Cents): Promise<void> {
    if (notes.length === 0) return;
    const { backSec, wasPlaying } = this.onNotes ?? {
      backSec: this.timeSec,
      wasPlaying: !this.media.paused,
    };
    const startSec = Math.min(...notes.map((note) => note.startSec));
    const endSec = Math.max(...notes.map((note) => note.endSec)) + AFTER_SEC;
    this.onNotes = { notes, tuningCents, endSec, backSec, wasPlaying };
    this.tell({ isOnNotes: true });
    this.jump(startSec - BEFORE_SEC);
    await this.start();
  }

  /** Where other sound joins the record, so that both together pass limiter and ceiling. */
  beside(): AudioNode {
    return this.openOutput().beside;
  }

  pause(): void {
    this.media.pause();
    if (this.onNotes) this.onNotes.wasPlaying = false;
    this.leaveNotes();
  }

  toggle(): void {
    if (this.now().isPlaying) this.pause();
    else void this.play();
  }

  seek(timeSec: Seconds): void {
    if (this.onNotes) this.onNotes.backSec = timeSec;
    this.leaveNotes();
    this.jump(timeSec);
  }

  /** How the record is listened to, as plain data that can be kept and given back. */
  listening(): ListeningSettings {
    return { ...this.settings, speed: this.now().speed };
  }

  /** Listens in that way from now on; what is not given stays as it is. */
  setListening(settings: Partial<ListeningSettings>): void {
    this.settings = keptListening(settings, this.listening());
    this.setSpeed(this.settings.speed);
  }

  setSpeed(speed: number): void {
    const kept = Math.min(SPEEDS.fastest, Math.max(SPEEDS.slowest, Math.round(speed * 100) / 100));
    this.media.playbackRate = kept;
    this.tell({ speed: kept });
  }

  setLevel(level: number): void {
    const kept = Math.min(1, Math.max(0, level));
    this.chain?.setLevel(kept);
    this.tell({ level: kept });
  }

  setLoop(loop: Loop | null): void {
    this.tell({ loop, timesThrough: 0 });
    if (this.onNotes) return;
    if (loop && this.now().isPlaying && (this.timeSec < loop.startSec || this.timeSec > loop.endSec))
      this.seek(loop.startSec);
  }

  /** Says whether something sounds beside the record that goes on and on: it counts as a loop does. */
  setEndless(isSounding: boolean): void {
    clearInterval(this.endlessTimer);
    this.isEndless = isSounding;
    // While the record plays, every frame looks at the level.
    if (isSounding)
      this.endlessTimer = setInterval(() => !this.now().isPlaying && this.meter(), METER_MS + 50);
  }

  close(): void {
    this.scope.abort();
    clearInterval(this.endlessTimer);
    cancelAnimationFrame(this.frame);
    this.media.pause();
    this.media.removeAttribute("src");
    this.media.load();
    this.chain?.close();
    this.leaveWatchers();
    this.timeListeners.clear();
  }

  private async start(): Promise<void> {
    const chain = this.openOutput();
    try {
      this.follow();
      await chain.resume();
      await this.media.play();
      this.tell({ fault: null });
    } catch (cause) {
      // A pause before playing began is no fault.
      if (cause instanceof DOMException && cause.name === "AbortError") return;
      if (this.onNotes) this.onNotes.wasPlaying = false;
      this.leaveNotes();
      this.tell({ isPlaying: false, fault: faultWords(this.media.error) });
    }
  }

  private jump(timeSec: Seconds): void {
    this.media.currentTime = Math.min(Math.max(0, timeSec), this.durationSec);
    this.tellTime();
  }

  private begin(): void {
    this.tell({ isPlaying: true });
    cancelAnimationFrame(this.frame);
    this.meteredAtMs = performance.now();
    const onFrame = () => {
      this.turn();
      this.tellTime();
      this.meter();
      this.frame = requestAnimationFrame(onFrame);
    };
    this.frame = requestAnimationFrame(onFrame);
  }

  private end(): void {
    cancelAnimationFrame(this.frame);
    this.tell({ isPlaying: false });
    this.tellTime();
  }

  /** At the end of the notes that are heard back to where it was, at the end of the loop back to its start. */
  private turn(): void {
    const { loop, isPlaying, timesThrough } = this.now();
    if (this.onNotes) {
      if (this.timeSec < this.onNotes.endSec || this.media.seeking) this.follow();
      else this.leaveNotes();
      return;
    }
    if (!loop || !isPlaying || this.media.seeking || this.timeSec < loop.endSec) return;
    this.tell({ timesThrough: timesThrough + 1 });
    this.seek(loop.startSec);
  }

  /** Lets through what the notes sound like at this moment. */
  private follow(): void {
    if (!this.onNotes) return;
    const { notes, tuningCents } = this.onNotes;
    this.chain?.filter.letThrough(bandsAt(notes, this.timeSec, tuningCents));
  }

  /** Back to where the player was before it played notes; nothing where it plays none. */
  private leaveNotes(): void {
    if (!this.onNotes) return;
    const { backSec, wasPlaying } = this.onNotes;
    this.onNotes = null;
    if (!wasPlaying) this.media.pause();
    this.chain?.filter.letAllThrough();
    this.jump(backSec);
    this.tell({ isOnNotes: false });
    // At the end of the record the element has stopped by itself.
    if (wasPlaying && this.media.paused) void this.start();
  }

  /** Once a second, how loud it is. */
  private meter(): void {
    const elapsedMs = performance.now() - this.meteredAtMs;
    if (elapsedMs < METER_MS || !this.chain) return;
    this.meteredAtMs = performance.now();
    this.chain.readOutput(this.meterSamples);
    this.loud = listenOn(this.loud, {
      elapsedSec: Math.min(elapsedMs / 1000, 5),
      isLooping: this.isEndless || (this.now().loop !== null && this.now().isPlaying),
      levelDbfs: levelDbfs(this.meterSamples),
    });
    if (this.loud.isCautioned !== this.now().isCautioned) this.tell({ isCautioned: this.loud.isCautioned });
  }

  private tellTime(): void {
    for (const listener of this.timeListeners) listener(this.timeSec);
  }
}

function faultWords(error: MediaError | null): string {
  return error?.code === MediaError.MEDIA_ERR_SRC_NOT_SUPPORTED
    ? "This browser cannot play the record, or you may no longer open it. Everything written is kept. Load the page again."
    : "The record stopped coming. Everything written is kept. Check the connection and press play again.";
}
