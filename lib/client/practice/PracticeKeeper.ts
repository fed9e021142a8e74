import { equalityDeep } from "lib0/function";
import type { ListeningSettings } from "@/lib/document/records/ListeningSettings";
import type { StudyListening, ThroughCount } from "@/lib/document/records/records";
import type { Seconds } from "@/lib/units/quantities";
import type { Loop } from "../playback/playbackMessages";
import type { PlayerState } from "../player/PlayerState";
import { Watched } from "../watched/Watched";
import { LoopCounter } from "./LoopCounter";

/** Times through are written to the shared song no more often than this, since everyone gets each writing. */
const WRITE_EVERY_MS = 10_000;
/** How one listens is kept once it stayed so for a moment. */
const SETTLED_MS = 1_500;

/** What of a player it takes to count, and to tell how one listens. */
export interface PracticePlayer {
  now(): Pick<PlayerState, "isPlaying" | "speed" | "loop" | "timesThrough">;
  watch(watcher: () => void): () => void;
  onTime(listener: (timeSec: Seconds) => void): () => void;
  readonly timeSec: Seconds;
  listening(): ListeningSettings;
}

/** Writes to the shared song. */
export interface PracticeWriter {
  /** False where the reader may not write: then nothing is written, and what was counted stays with the page. */
  readonly mayWrite: boolean;
  count(id: string, more: Pick<ThroughCount, "times" | "fullSpeedTimes">): void;
  listen(id: string, how: Pick<StudyListening, "isLooped" | "settings">): void;
}

export interface PracticeTarget extends Loop {
  id: string;
}

/** What was counted of the passage at hand and is not written yet. */
export interface CountedHere {
  times: number;
  fullSpeedTimes: number;
}

const NONE: CountedHere = { times: 0, fullSpeedTimes: 0 };

/** Counts how often the passage at hand is played through, and keeps how it is listened to. */
export class PracticeKeeper extends Watched<CountedHere> {
  private readonly counter = new LoopCounter();
  private readonly stops: (() => void)[];
  private target: PracticeTarget | null = null;
  private kept: Pick<StudyListening, "isLooped" | "settings"> | null = null;
  private wasPlaying = false;
  private wroteAtMs = Number.NEGATIVE_INFINITY;
  private countTimer: ReturnType<typeof setTimeout> | undefined;
  private listenTimer: ReturnType<typeof setTimeout> | undefined;

  /** @param nowMs a clock that only goes on */
  constructor(
    private readonly player: PracticePlayer,
    private readonly writer: PracticeWriter,
    private readonly nowMs: () => number = () => performance.now(),
  ) {
    super(NONE);
    this.stops = [player.watch(() => this.onState()), player.onTime(() => this.onMoment())];
  }

  /**
   * Goes on with another passage, or with the same whose ends were moved; null for none.
   * @param isKept whether it is listened to now as was kept of it; where nothing was, playing it is enough to keep that
   */
  take(target: PracticeTarget | null, isKept = true): void {
    if (target?.id === this.target?.id) {
      this.target = target;
      return;
    }
    this.flush();
    this.target = target;
    this.tell(NONE);
    this.wroteAtMs = Number.NEGATIVE_INFINITY;
    this.kept = isKept ? target && this.listening() : null;
  }

  /** Writes what is not written yet. */
  flush(): void {
    this.writeCount();
    if (this.listenTimer !== undefined) this.writeListening();
  }

  close(): void {
    this.flush();
    for (const stop of this.stops) stop();
    this.leaveWatchers();
  }

  private onState(): void {
    this.onMoment();
    const { isPlaying } = this.player.now();
    if (this.wasPlaying && !isPlaying) this.writeCount();
    this.wasPlaying = isPlaying;
    if (!this.target || equalityDeep(this.listening(), this.kept)) return;
    clearTimeout(this.listenTimer);
    this.listenTimer = setTimeout(() => this.writeListening(), SETTLED_MS);
  }

  private onMoment(): void {
    const { isPlaying, speed, loop, timesThrough } = this.player.now();
    const through = this.counter.tell({
      timeSec: this.player.timeSec,
      clockSec: this.nowMs() / 1000,
      speed,
      isPlaying,
      loop,
      timesThrough,
    });
    if (!through || !this.target || !isLoopOf(loop, this.target)) return;
    const { times, fullSpeedTimes } = this.now();
    this.tell({ times: times + 1, fullSpeedTimes: fullSpeedTimes + Number(through.isFullSpeed) });
    const waitMs = this.wroteAtMs + WRITE_EVERY_MS - this.nowMs();
    if (waitMs <= 0) this.writeCount();
    else this.countTimer ??= setTimeout(() => this.writeCount(), waitMs);
  }

  private writeCount(): void {
    clearTimeout(this.countTimer);
    this.countTimer = undefined;
    const { times, fullSpeedTimes } = this.now();
    if (!this.target || !this.writer.mayWrite || times === 0) return;
    this.wroteAtMs = this.nowMs();
    this.tell(NONE);
    this.writer.count(this.target.id, { times, fullSpeedTimes });
  }

  private writeListening(): void {
    clearTimeout(this.listenTimer);
    this.listenTimer = undefined;
    if (!this.target) return;
    this.kept = this.listening();
    if (this.writer.mayWrite) this.writer.listen(this.target.id, this.kept);
  }

  private listening(): Pick<StudyListening, "isLooped" | "settings"> {
    const isLooped = this.target !== null && isLoopOf(this.player.now().loop, this.target);
    return { isLooped, settings: this.player.listening() };
  }
}

/** Ends closer than this are the same. */
const SAME_SEC: Seconds = 0.02;

/** Whether a loop is that of a passage. */
export function isLoopOf(loop: Loop | null, { startSec, endSec }: Loop): boolean {
  return (
    loop !== null &&
    Math.abs(loop.startSec - startSec) < SAME_SEC &&
    Math.abs(loop.endSec - endSec) < SAME_SEC
  );
}
