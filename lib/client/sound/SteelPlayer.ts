import { partGroup } from "@/lib/synth/groups";
import type { BankNote } from "@/lib/synth/StringSet";
import type { Seconds } from "@/lib/units/quantities";
import { LISTENS, type Listen, mixGains, recordGains } from "../player/ListenMix";
import type { Player } from "../player/Player";
import { wordsOf } from "../requests/request";
import { Watched } from "../watched/Watched";
import { LiveStrings } from "./LiveStrings";
import { StretchOffsets } from "./StretchOffsets";

/** What the switches show. */
export interface SteelState {
  listen: Listen;
  /** -1 the record alone, 0 both, 1 the parts alone. */
  balance: number;
  /** Whether bass and chords play the changes along. */
  isBandOn: boolean;
  isDroneOn: boolean;
  /** Whether one change is played over and over. */
  isRepeating: boolean;
  /** Why nothing sounds, in words; null where it does. */
  fault: string | null;
}

/** A part as it is played beside the record. */
export interface SoundingPart {
  id: string;
  /** 0 to 1. */
  level: number;
  /** Reckoned only when it is played. Another function is other notes. */
  notes(): readonly BankNote[];
}

/** What there is to be played; reckoned only when it is played. Another function is another band, and so on. */
export interface SteelScore {
  /** The part in hand, and those that sound beside it. */
  parts: readonly SoundingPart[];
  /** Bass and chords along the changes. */
  band(): readonly BankNote[];
  /** The drone for a time of the record; none where no home is known. */
  droneAt(timeSec: Seconds): readonly BankNote[];
}

const nothing = () => [];
const NOTHING: SteelScore = { parts: [], band: nothing, droneAt: nothing };

const AT_FIRST: SteelState = {
  listen: "record",
  balance: 0,
  isBandOn: false,
  isDroneOn: false,
  isRepeating: false,
  fault: null,
};

/**
 * Plays the parts, and what goes with them, beside the record: in time with it at any speed, in tune, in its loop, through its
 * level and ceiling. The record's own clock leads; the strings follow it. Nothing is started before it is wanted.
 */
export class SteelPlayer extends Watched<SteelState> {
  private score = NOTHING;
  private isFollowing = false;
  /** Where the record was sent and has not moved on from: it does not sound yet. */
  private waitingAtSec: Seconds | null = null;
  private droneIds = "";

  constructor(
    private readonly player: Player,
    private readonly strings: Pick<LiveStrings, "open" | "tell" | "close"> = new LiveStrings(),
    private readonly offsets: Pick<StretchOffsets, "at" | "measure"> = new StretchOffsets(),
  ) {
    super(AT_FIRST);
  }

  /** Follows the player from now on; returns the way to stop, which ends all that sounds. */
  attach(): () => void {
    const stops = [this.player.onTime(() => this.follow()), this.player.watch(() => this.onPlayer())];
    return () => {
      for (const stop of stops) stop();
      this.player.setEndless(false);
      this.strings.close();
    };
  }

  /** Gives it what there is to be played, in place of what it had. */
  setScore(score: SteelScore): void {
    const before = this.score;
    this.score = score;
    if (this.now().listen !== "record") this.tellParts(before.parts);
    if (score.band !== before.band && this.now().isBandOn) this.tellBand();
    this.turnDrone();
  }

  async setListen(listen: Listen): Promise<void> {
    this.tell({ listen });
    if (listen === "record") {
      this.mix();
      this.silenceParts(this.score.parts);
    } else await this.open();
  }

  /** Record, both, part, and round again. */
  nextListen(): Promise<void> {
    return this.setListen(LISTENS[(LISTENS.indexOf(this.now().listen) + 1) % LISTENS.length]!);
  }

  /** @param balance -1 the record alone, 1 the parts alone */
  setBalance(balance: number): void {
    this.tell({ balance: Math.round(Math.min(1, Math.max(-1, balance)) * 100) / 100 });
    this.mix();
  }

  async setBand(isBandOn: boolean): Promise<void> {
    this.tell({ isBandOn });
    if (isBandOn) await this.open();
    else this.tellBand();
  }

  async setDrone(isDroneOn: boolean): Promise<void> {
    this.tell({ isDroneOn });
    this.player.setEndless(this.isEndless);
    if (isDroneOn) await this.open();
    else this.turnDrone();
  }

  /** Plays notes of the part in hand at once, whether the record runs or not; with the record alone it is heard too. */
  async soundSteel(notes: readonly BankNote[]): Promise<void> {
    if (!(await this.open())) return;
    if (this.now().listen === "record") await this.setListen("both");
    this.strings.tell({ kind: "play", group: "steelNow", notes });
  }

  /** Plays bass and chord at once. @param isRepeating whether the notes go on until they are told to stop */
  async soundBand(notes: readonly BankNote[], isRepeating: boolean): Promise<void> {
    this.tell({ isRepeating });
    this.player.setEndless(this.isEndless);
    if (await this.open()) this.strings.tell({ kind: "play", group: "bandNow", notes });
  }

  stopBand(): void {
    this.tell({ isRepeating: false });
    this.player.setEndless(this.isEndless);
    this.strings.tell({ kind: "play", group: "bandNow", notes: [] });
  }

  /** Whether something sounds on and on, the record running or not. */
  private get isEndless(): boolean {
    return this.now().isDroneOn || this.now().isRepeating;
  }

  private async open(): Promise<boolean> {
    try {
      const chain = this.player.openOutput();
      // The record goes to its side before the strings have come.
      this.mix();
      await Promise.all([chain.resume(), this.strings.open(chain)]);
    } catch (fault) {
      this.tell({
        fault: wordsOf(fault),
        listen: "record",
        isBandOn: false,
        isDroneOn: false,
        isRepeating: false,
      });
      this.mix();
      return false;
    }
    this.tell({ fault: null });
    if (this.now().listen !== "record") this.tellParts([]);
    this.tellBand();
    this.turnDrone();
    this.measureOffset();
    this.follow();
    return true;
  }

  private mix(): void {
    const { listen, balance } = this.now();
    const { isOnNotes, pass } = this.player.now();
    const gains =
      pass && pass.record !== "asListened"
        ? recordGains(pass.record)
        : mixGains(isOnNotes ? "record" : listen, balance);
    this.player.output?.mix.set(gains);
  }

  /** Tells what is new since some parts were told. */
  private tellParts(told: readonly SoundingPart[]): void {
    const { parts } = this.score;
    this.silenceParts(told.filter(({ id }) => !parts.some((part) => part.id === id)));
    for (const { id, notes, level } of parts) {
      const group = partGroup(id);
      const before = told.find((part) => part.id === id);
      if (before?.notes !== notes) this.strings.tell({ kind: "play", group, notes: notes() });
      if (before?.notes !== notes || before.level !== level)
        this.strings.tell({ kind: "level", group, level });
    }
  }

  private silenceParts(parts: readonly SoundingPart[]): void {
    for (const { id } of parts) this.strings.tell({ kind: "play", group: partGroup(id), notes: [] });
  }

  private tellBand(): void {
    this.strings.tell({ kind: "play", group: "band", notes: this.now().isBandOn ? this.score.band() : [] });
  }

  /** Begins, changes or ends the drone, where home is another than before. */
  private turnDrone(): void {
    const notes = this.now().isDroneOn ? this.score.droneAt(this.player.timeSec) : [];
    const ids = notes.map(({ id }) => id).join();
    if (ids === this.droneIds) return;
    this.droneIds = ids;
    this.strings.tell({ kind: "play", group: "drone", notes });
  }

  private onPlayer(): void {
    this.mix();
    this.measureOffset();
    this.follow();
  }

  private get isWanted(): boolean {
    const { listen, isBandOn } = this.now();
    const { isOnNotes, pass } = this.player.now();
    const isRecordAlone = isOnNotes || (pass !== null && pass.record !== "asListened");
    return (listen !== "record" || isBandOn) && !isRecordAlone;
  }

  /** Tells the strings where the record is, or that it stands still. */
  private follow(): void {
    const { player } = this;
    const { timeSec } = player;
    if (this.now().isDroneOn) this.turnDrone();
    if (!player.now().isPlaying || !player.isRunning) this.waitingAtSec = timeSec;
    // After a start or a jump a media element tells where it will be before it is heard there.
    else if (player.isExact) this.waitingAtSec = null;
    else if (this.waitingAtSec !== null && timeSec !== this.waitingAtSec) this.waitingAtSec = null;
    if (!this.isWanted || this.waitingAtSec !== null) {
      if (this.isFollowing) this.strings.tell({ kind: "halt" });
      this.isFollowing = false;
      return;
    }
    const { sec, atSec, speed } = player.sounding();
    const aheadSec = player.isExact ? 0 : this.offsets.at(speed);
    this.strings.tell({ kind: "song", sec: sec + aheadSec, atSec, speed });
    this.isFollowing = true;
  }

  private measureOffset(): void {
    const { speed } = this.player.now();
    const context = this.player.output?.context;
    if (!context || !this.isWanted || this.player.isExact) return;
    void this.offsets.measure(context, speed).then(() => {
      // One is measured at a time: what the speed became meanwhile is next.
      if (this.player.now().speed !== speed) this.measureOffset();
    });
  }
}
