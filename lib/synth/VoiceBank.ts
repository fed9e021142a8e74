import type { Hertz, Seconds } from "@/lib/units/quantities";
import { BUSES } from "./buses";
import { type GroupName, isPartGroup } from "./groups";
import type { EndingName } from "./Pluck";
import { SongClock } from "./SongClock";
import { type BankNote, StringSet } from "./StringSet";

/** What began so shortly before the place that the song jumped to is picked all the same. */
const LATE_SEC: Seconds = 0.15;

/**
 * Strings for the audio thread: picks the notes it was given when their time comes, and adds them up. Each group has strings
 * of its own, so that none takes another's away. Notes are given and the song's clock is put right between two portions;
 * within a portion nothing is allocated.
 */
export class VoiceBank {
  private readonly song: SongClock;
  private readonly byName = new Map<GroupName, StringSet>();
  /** All of them, to be gone through within a portion. */
  private sets: readonly StringSet[] = [];
  /** The next frame to be sent out. */
  private frame = 0;

  constructor(private readonly sampleRateHz: Hertz) {
    this.song = new SongClock(sampleRateHz);
  }

  /**
   * Gives a group its notes in place of those it had. Those that follow the song are on the song's clock; for the others 0
   * is now.
   */
  play(name: GroupName, notes: readonly BankNote[]): void {
    const set = this.setOf(name);
    const isFollowing = set.clock === this.song;
    set.give(notes, isFollowing);
    if (isFollowing) set.goTo(this.song.secAt(this.frame));
    else set.clock.start(0, this.frame);
  }

  /** How loud a group is heard, 0 to 1; 1 where nothing was said. */
  setLevel(name: GroupName, level: number): void {
    this.setOf(name).setLevel(level);
  }

  /** Hears that a second of the song is heard at a frame; the song's groups follow it from there. */
  hearOfSong(sec: Seconds, frame: number, speed: number): void {
    if (!this.song.hearOf(sec, frame, speed, this.frame)) return;
    this.stopFollowing("pick");
    const nowSec = this.song.secAt(this.frame);
    for (const set of this.sets) if (set.clock === this.song) set.goTo(nowSec - LATE_SEC);
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
    for (let index = 0; index < this.sets.length; index += 1) {
      const set = this.sets[index]!;
      set.addTo(buses[set.bus]!, this.frame, count);
    }
    this.frame += count;
  }

  /** A group's strings, made where it has none yet; those of parts that were given up go as soon as they are silent. */
  private setOf(name: GroupName): StringSet {
    const known = this.byName.get(name);
    if (known) return known;
    for (const [other, set] of this.byName) if (isPartGroup(other) && set.isEmpty) this.byName.delete(other);
    const isFollowing = isPartGroup(name) || name === "band";
    const clock = isFollowing ? this.song : new SongClock(this.sampleRateHz);
    const bus = isPartGroup(name) || name === "steelNow" ? BUSES.parts : BUSES.band;
    const made = new StringSet(bus, clock, this.sampleRateHz);
    this.byName.set(name, made);
    this.sets = [...this.byName.values()];
    return made;
  }

  private stopFollowing(ending: EndingName): void {
    for (const set of this.sets) if (set.clock === this.song) set.stop(ending);
  }
}
