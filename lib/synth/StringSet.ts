import type { Hertz, Seconds } from "@/lib/units/quantities";
import type { EndingName, Pluck } from "./Pluck";
import type { SongClock } from "./SongClock";
import { StringVoice } from "./StringVoice";
import { TIMBRES, type TimbreName } from "./timbres";

/** One string to be picked. */
export interface BankNote {
  /** The same for the same note: what still sounds when notes are given anew sounds on where its id is among them. */
  id: string;
  timbre: TimbreName;
  pluck: Pluck;
}

/** All strings of a neck, twice over. */
const VOICES = 24;
/** How fast a level is reached, as a time constant: without a click, and at once to the ear (local choice). */
const LEVEL_SEC: Seconds = 0.015;
/** What is so near to a level is there, 80 dB below full level. */
const THERE = 1e-4;

interface Slot {
  voice: StringVoice;
  note: BankNote | null;
}

/**
 * The strings that sound together for one part, or for a band: they pick their notes when the time comes, and nobody else's.
 * They are made when first there is something to pick, and cost next to nothing while they are silent.
 */
export class StringSet {
  private notes: readonly BankNote[] = [];
  /** The next to be picked. */
  private next = 0;
  private slots: readonly Slot[] = [];
  private own = new Float32Array(128);
  private level = 1;
  private wantedLevel = 1;
  private readonly levelStep: number;

  /** @param bus where they go out @param clock by which their notes are timed */
  constructor(
    readonly bus: number,
    readonly clock: SongClock,
    private readonly sampleRateHz: Hertz,
  ) {
    this.levelStep = 1 - Math.exp(-1 / (LEVEL_SEC * sampleRateHz));
  }

  /** Whether nothing sounds, and nothing is to be picked. */
  get isEmpty(): boolean {
    return this.notes.length === 0 && !this.isSounding;
  }

  /** Gives them notes in place of those they had. @param isKept whether what still sounds, and is among them, sounds on */
  give(notes: readonly BankNote[], isKept: boolean): void {
    const kept = new Set(isKept ? notes.map(({ id }) => id) : []);
    for (const { note, voice } of this.slots) if (note && !kept.has(note.id)) voice.stop("lift");
    this.notes = [...notes].sort((a, b) => a.pluck.startSec - b.pluck.startSec);
    this.next = 0;
    if (notes.length > 0 && this.slots.length === 0)
      this.slots = Array.from({ length: VOICES }, () => ({
        ...{ voice: new StringVoice(this.sampleRateHz), note: null },
      }));
  }

  /** @param level 0 to 1 */
  setLevel(level: number): void {
    this.wantedLevel = Math.min(1, Math.max(0, level));
  }

  /** Goes to the first note that begins at a time or after it. */
  goTo(sec: Seconds): void {
    this.next = 0;
    while (this.next < this.notes.length && this.notes[this.next]!.pluck.startSec < sec) this.next += 1;
  }

  stop(ending: EndingName): void {
    for (const { note, voice } of this.slots) if (note) voice.stop(ending);
  }

  /** Adds the samples from a frame on. Within it nothing is allocated, once portions of that size have come. */
  addTo(out: Float32Array, frame: number, count: number): void {
    this.pickDue(frame, count);
    if (!this.isSounding) {
      this.level = this.wantedLevel;
      return;
    }
    if (this.level === 1 && this.wantedLevel === 1) {
      this.addStrings(out, frame, count);
      return;
    }
    if (this.own.length < count) this.own = new Float32Array(count);
    this.own.fill(0, 0, count);
    this.addStrings(this.own, frame, count);
    for (let index = 0; index < count; index += 1) {
      this.level += (this.wantedLevel - this.level) * this.levelStep;
      out[index] = out[index]! + this.level * this.own[index]!;
    }
    if (Math.abs(this.wantedLevel - this.level) < THERE) this.level = this.wantedLevel;
  }

  private get isSounding(): boolean {
    for (let index = 0; index < this.slots.length; index += 1) if (this.slots[index]!.note) return true;
    return false;
  }

  private addStrings(out: Float32Array, frame: number, count: number): void {
    for (let index = 0; index < this.slots.length; index += 1) {
      const slot = this.slots[index]!;
      if (!slot.note) continue;
      slot.voice.addTo(out, 0, frame, count, this.clock);
      if (!slot.voice.isSounding) slot.note = null;
    }
  }

  private pickDue(fromFrame: number, count: number): void {
    if (!this.clock.isRunning) return;
    while (this.next < this.notes.length) {
      const note = this.notes[this.next]!;
      const frame = Math.round(this.clock.frameAt(note.pluck.startSec));
      if (frame >= fromFrame + count) return;
      this.next += 1;
      if (this.clock.secAt(fromFrame) < note.pluck.endSec) this.pick(note, Math.max(frame, fromFrame));
    }
  }

  private pick(note: BankNote, frame: number): void {
    const slot = this.freeSlot();
    slot.note = note;
    slot.voice.pick(TIMBRES[note.timbre], note.pluck, frame, this.clock);
  }

  /** One that is silent; else one that is stopping, else any that began first. */
  private freeSlot(): Slot {
    let best = this.slots[0]!;
    for (let index = 0; index < this.slots.length; index += 1) {
      const slot = this.slots[index]!;
      if (!slot.note) return slot;
      if (slot.voice.isStopping && !best.voice.isStopping) best = slot;
      else if (
        slot.voice.isStopping === best.voice.isStopping &&
        slot.note.pluck.startSec < (best.note?.pluck.startSec ?? 0)
      )
        best = slot;
    }
    return best;
  }
}
