import type { Cents, Seconds } from "@/lib/units/quantities";
import type { TracedNote } from "../song/noteTrace";
import type { OutputChain } from "./outputChain";
import type { Sounding } from "./Playback";
import type { PlayerState } from "./PlayerState";
import { AFTER_SEC, BEFORE_SEC, bandsAt } from "./partialBands";

/** What of a record's player is needed. */
export interface NotesPlayer {
  readonly timeSec: Seconds;
  readonly isPaused: boolean;
  readonly isRunning: boolean;
  readonly isExact: boolean;
  readonly output: Pick<OutputChain, "filter"> | null;
  now(): Pick<PlayerState, "shiftCents">;
  sounding(): Sounding;
  start(isCountedIn: boolean): Promise<void>;
  pause(): void;
  jump(timeSec: Seconds): void;
  setOnNotes(isOnNotes: boolean): void;
}

/** Notes that are heard in the record, and where the player was before. */
interface OnNotes {
  notes: readonly TracedNote[];
  tuningCents: Cents;
  endSec: Seconds;
  backSec: Seconds;
  wasPlaying: boolean;
}

/** Has notes heard where they sound in the record, all else faint; then the player is where it was. */
export class NotesInRecord {
  private on: OnNotes | null = null;

  constructor(private readonly player: NotesPlayer) {}

  /** @param tuningCents how far the record stands from A4 = 440 Hz, before it is moved */
  async play(notes: readonly TracedNote[], tuningCents: Cents): Promise<void> {
    if (notes.length === 0) return;
    const { player } = this;
    const { backSec, wasPlaying } = this.on ?? { backSec: player.timeSec, wasPlaying: !player.isPaused };
    const startSec = Math.min(...notes.map((note) => note.startSec));
    const endSec = Math.max(...notes.map((note) => note.endSec)) + AFTER_SEC;
    this.on = { notes, tuningCents, endSec, backSec, wasPlaying };
    player.setOnNotes(true);
    player.jump(startSec - BEFORE_SEC);
    if (player.isPaused) await player.start(false);
    else this.follow();
  }

  /** Lets through what the notes sound like at this moment, in whatever pitch the record is heard; leaves them at their end. */
  follow(): void {
    if (!this.on) return;
    const { notes, tuningCents, endSec } = this.on;
    const { player } = this;
    if (player.timeSec >= endSec) {
      this.leave();
      return;
    }
    // The filter acts on what is sent out now, which is heard a little later.
    const sec = player.isExact && player.isRunning ? player.sounding().sec : player.timeSec;
    player.output?.filter.letThrough(bandsAt(notes, sec, tuningCents + player.now().shiftCents));
  }

  /** The record was paused: back to where it was. */
  stop(): void {
    if (this.on) this.on.wasPlaying = false;
    this.leave();
  }

  /** It could not be played. */
  fail(): void {
    this.stop();
  }

  /**
   * Back to where the player was before, or to where it is sent; nothing where no notes are heard.
   * @returns whether any were
   */
  leave(toSec?: Seconds): boolean {
    if (!this.on) return false;
    const { backSec, wasPlaying } = this.on;
    const { player } = this;
    this.on = null;
    if (!wasPlaying && !player.isPaused) player.pause();
    player.output?.filter.letAllThrough();
    player.setOnNotes(false);
    player.jump(toSec ?? backSec);
    // At the end of the record it has stopped by itself.
    if (wasPlaying && player.isPaused) void player.start(false);
    return true;
  }
}
