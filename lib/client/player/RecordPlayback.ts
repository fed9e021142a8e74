import { type ListeningSettings, shiftCents } from "@/lib/document/records/ListeningSettings";
import type { BeatGrid } from "@/lib/notation/barGrid";
import type { Seconds } from "@/lib/units/quantities";
import type { RecordInMemory } from "../playback/openMemory";
import type { LoopManner } from "../playback/playbackMessages";
import { wordsOf } from "../requests/request";
import { applyToChain } from "./applyToChain";
import { MEDIA_SPEEDS, MediaPlayback } from "./MediaPlayback";
import type { MemoryPlayback } from "./MemoryPlayback";
import type { OutputChain } from "./outputChain";
import type { Playback, PlaybackEvents } from "./Playback";
import type { Pass, PlayerState } from "./PlayerState";

/** How long the record still sounds by the media element while it begins to from memory. */
const HAND_OVER_MS = 60;

/** What the player wants, and where it is told what came of it. */
export interface PlaybackWish {
  now(): PlayerState;
  tell(fields: Partial<PlayerState>): void;
}

/**
 * What plays a record at present: the media element at once, memory as soon as the record is decoded there, which goes on
 * where the media element is. It brings either to what the player wants, as far as it can.
 */
export class RecordPlayback {
  private readonly byMedia: MediaPlayback;
  private inUse: Playback;
  private readonly scope = new AbortController();
  private grid: BeatGrid | null = null;

  /** @param events told of by whichever plays */
  constructor(
    private readonly url: string,
    private readonly durationSec: Seconds,
    private readonly events: PlaybackEvents,
    private readonly wish: PlaybackWish,
  ) {
    this.byMedia = new MediaPlayback(url, durationSec, events);
    this.inUse = this.byMedia;
  }

  get now(): Playback {
    return this.inUse;
  }

  /** Sends the record on its way to the ears, and takes it into memory for that. */
  connect(chain: OutputChain): void {
    this.byMedia.connect(chain);
    void this.takeIntoMemory(chain);
  }

  setBeats(grid: BeatGrid | null): void {
    this.grid = grid;
    this.inUse.setBeats(grid);
  }

  /** Pace and manner as they are wanted; tells the pace that came of it. */
  applyPace(): void {
    const { listening, memory, pass } = this.wish.now();
    const isWhole = memory.kind === "ready";
    const wanted = pass?.speed ?? listening.speed;
    const speed = isWhole ? wanted : Math.min(MEDIA_SPEEDS.fastest, Math.max(MEDIA_SPEEDS.slowest, wanted));
    const cents = isWhole ? shiftCents(listening) : 0;
    this.wish.tell({ speed, shiftCents: cents });
    this.inUse.setManner(pass ? mannerOf(pass, listening) : listening);
    this.inUse.setPace({ speed, shiftCents: cents });
  }

  /** The loop of the pass, or the one that is practised; none while notes are heard in the record. */
  applyLoop(): void {
    const { loop, timesThrough, isOnNotes, pass } = this.wish.now();
    if (pass) this.inUse.setLoop(pass.loop, 0);
    else this.inUse.setLoop(isOnNotes ? null : loop, timesThrough);
  }

  /** Whether each beat clicks; none does while notes are heard in the record. */
  applyClicking(): void {
    const { isClicking, isOnNotes } = this.wish.now();
    this.inUse.setClicking(isClicking && !isOnNotes);
  }

  close(): void {
    this.scope.abort();
    this.byMedia.close();
    if (this.inUse !== this.byMedia) this.inUse.close();
  }

  private async takeIntoMemory(chain: OutputChain): Promise<void> {
    const { signal } = this.scope;
    try {
      const [{ openMemory }, { MemoryPlayback }] = await Promise.all([
        import("../playback/openMemory"),
        import("./MemoryPlayback"),
      ]).catch(() => {
        throw new Error("The player for records in memory could not be fetched.");
      });
      signal.throwIfAborted();
      const record = await openMemory(this.url, this.durationSec, chain.context, signal, (progress) =>
        this.wish.tell({ memory: { kind: "coming", ...progress } }),
      );
      record.node.connect(chain.record, 0);
      record.node.connect(chain.clicks, 1);
      this.handOver(record, chain, MemoryPlayback);
    } catch (fault) {
      if (!signal.aborted) this.wish.tell({ memory: { kind: "failed", because: wordsOf(fault) } });
    }
  }

  /** Goes on from memory where the media element is. */
  private handOver(record: RecordInMemory, chain: OutputChain, ByMemory: typeof MemoryPlayback): void {
    const { byMedia, wish } = this;
    const isPlaying = !byMedia.isPaused;
    if (!isPlaying && wish.now().isPlaying) {
      // It has stopped and is about to say so, or to go round its loop.
      byMedia.onceStopped(() => this.handOver(record, chain, ByMemory));
      return;
    }
    const { timeSec } = byMedia;
    byMedia.leave(isPlaying ? HAND_OVER_MS : 0);
    const fromMemory = new ByMemory(record.node.port, chain.context, this.durationSec, this.events);
    this.inUse = fromMemory;
    wish.tell({ memory: { kind: "ready", channels: record.channels } });
    fromMemory.setBeats(this.grid);
    this.applyPace();
    applyToChain(chain, wish.now());
    this.applyLoop();
    this.applyClicking();
    fromMemory.seek(timeSec);
    if (isPlaying) void fromMemory.play(false);
  }
}

/** A pass goes round its loop as the record is, and at one speed. */
function mannerOf({ countInBars }: Pass, { seamMs, ladder }: ListeningSettings): LoopManner {
  return { seamMs, gapSec: 0, preRollSec: 0, countInBars, ladder: { ...ladder, isOn: false } };
}
