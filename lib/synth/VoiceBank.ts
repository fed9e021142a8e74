import type { Hertz, Seconds } from "@/lib/units/quantities";
import { BUSES } from "./buses";
import type { EndingName, Pluck } from "./Pluck";
import { SongClock } from "./SongClock";
import { StringVoice } from "./StringVoice";
import { TIMBRES, type TimbreName } from "./timbres";

/** One string to be picked. */
export interface BankNote {
  /** The same for the same note: what still sounds when notes are given anew sounds on where its id is among them. */
  id: string;
  timbre: TimbreName;
  pluck: Pluck;
}

/**
 * What is played together: the part and the band that follow the song, and what is played at once, by steel or band,
 * whether the song runs or not.
 */
export type GroupName = "part" | "band" | "steelNow" | "bandNow" | "drone";

const BUS_OF: Readonly<Record<GroupName, number>> = {
  part: BUSES.steel,
  steelNow: BUSES.steel,
  band: BUSES.band,
  bandNow: BUSES.band,
  drone: BUSES.band,
};
const FOLLOWING: readonly GroupName[] = ["part", "band"];
/** All strings of a neck, twice over, and a band. */
const VOICES = 32;
/** What began so shortly before the place that the song jumped to is picked all the same. */
const LATE_SEC: Seconds = 0.15;

class Group {
  notes: readonly BankNote[] = [];
  /** The next to be picked. */
  next = 0;

  constructor(
    readonly bus: number,
    readonly clock: SongClock,
  ) {}

  /** Goes to the first note that begins at a time or after it. */
  goTo(sec: Seconds): void {
    this.next = 0;
    while (this.next < this.notes.length && this.notes[this.next]!.pluck.startSec < sec) this.next += 1;
  }
}

interface Slot {
  voice: StringVoice;
  group: Group;
  note: BankNote | null;
}

/**
 * Strings for the audio thread: picks the notes it was given when their time comes, and adds them up. Notes are given and
 * the song's clock is put right between two portions; within a portion nothing is allocated.
 */
export class VoiceBank {
  private readonly song: SongClock;
  private readonly groups: Readonly<Record<GroupName, Group>>;
  private readonly slots: Slot[];
  /** The next frame to be sent out. */
  private frame = 0;

  constructor(sampleRateHz: Hertz) {
    this.song = new SongClock(sampleRateHz);
    const group = (name: GroupName) =>
      new Group(BUS_OF[name], FOLLOWING.includes(name) ? this.song : new SongClock(sampleRateHz));
    this.groups = {
      ...{ part: group("part"), band: group("band"), drone: group("drone") },
      ...{ steelNow: group("steelNow"), bandNow: group("bandNow") },
    };
    this.slots = Array.from({ length: VOICES }, () => ({
      voice: new StringVoice(sampleRateHz),
      group: this.groups.part,
      note: null,
    }));
  }

  /**
   * Gives a group its notes in place of those it had. Those that follow the song are on the song's clock; for the others 0
   * is now.
   */
  play(name: GroupName, notes: readonly BankNote[]): void {
    const group = this.groups[name];
    const isFollowing = group.clock === this.song;
    const kept = new Set(isFollowing ? notes.map(({ id }) => id) : []);
    for (const slot of this.slots)
      if (slot.group === group && slot.note && !kept.has(slot.note.id)) slot.voice.stop("lift");
    group.notes = [...notes].sort((a, b) => a.pluck.startSec - b.pluck.startSec);
    if (isFollowing) group.goTo(this.song.secAt(this.frame));
    else {
      group.next = 0;
      group.clock.start(0, this.frame);
    }
  }

  /** Hears that a second of the song is heard at a frame; the song's groups follow it from there. */
  hearOfSong(sec: Seconds, frame: number, speed: number): void {
    if (!this.song.hearOf(sec, frame, speed, this.frame)) return;
    this.stopFollowing("pick");
    const nowSec = this.song.secAt(this.frame);
    for (const name of FOLLOWING) this.groups[name].goTo(nowSec - LATE_SEC);
  }

  /** The song stands still. */
  haltSong(): void {
    this.song.stop();
    this.stopFollowing("lift");
  }

  /** The next samples are those of this frame: those between were never asked for. Nothing where it is past. */
  skipTo(frame: number): void {
    this.frame = Math.max(this.frame, frame);
  }

  /**
   * Adds the next samples.
   * @param buses one for each of {@link BUSES}, of the same length
   */
  addTo(buses: readonly Float32Array[], count: number): void {
    this.pickDue(this.groups.part, count);
    this.pickDue(this.groups.band, count);
    this.pickDue(this.groups.steelNow, count);
    this.pickDue(this.groups.bandNow, count);
    this.pickDue(this.groups.drone, count);
    for (let index = 0; index < this.slots.length; index += 1) {
      const slot = this.slots[index]!;
      if (!slot.note) continue;
      slot.voice.addTo(buses[slot.group.bus]!, 0, this.frame, count, slot.group.clock);
      if (!slot.voice.isSounding) slot.note = null;
    }
    this.frame += count;
  }

  private pickDue(group: Group, count: number): void {
    if (!group.clock.isRunning) return;
    while (group.next < group.notes.length) {
      const note = group.notes[group.next]!;
      const frame = Math.round(group.clock.frameAt(note.pluck.startSec));
      if (frame >= this.frame + count) return;
      group.next += 1;
      if (group.clock.secAt(this.frame) < note.pluck.endSec)
        this.pick(group, note, Math.max(frame, this.frame));
    }
  }

  private pick(group: Group, note: BankNote, frame: number): void {
    const slot = this.freeSlot();
    slot.group = group;
    slot.note = note;
    slot.voice.pick(TIMBRES[note.timbre], note.pluck, frame, group.clock);
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

  private stopFollowing(ending: EndingName): void {
    for (const slot of this.slots) if (slot.note && slot.group.clock === this.song) slot.voice.stop(ending);
  }
}
