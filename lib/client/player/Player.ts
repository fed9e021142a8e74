import { keptListening, type ListeningSettings } from "@/lib/document/records/ListeningSettings";
import type { BeatGrid } from "@/lib/notation/barGrid";
import type { Cents, Seconds } from "@/lib/units/quantities";
import type { Loop } from "../playback/playbackMessages";
import { ladderSpeed } from "../playback/speedLadder";
import type { TracedNote } from "../song/noteTrace";
import { Watched } from "../watched/Watched";
import { applyToChain } from "./applyToChain";
import { FrameClock } from "./FrameClock";
import { LoudnessWatch } from "./LoudnessWatch";
import { NotesInRecord } from "./NotesInRecord";
import { type OutputChain, openOutputChain } from "./outputChain";
import { PassAlone } from "./PassAlone";
import type { Playback, PlaybackEvents, Sounding } from "./Playback";
import { AT_FIRST, type Pass, type PlayerState } from "./PlayerState";
import { RecordPlayback } from "./RecordPlayback";

/**
 * Plays one record as a person wants it: where, over and over or once, how fast, what of it. It owns what plays it, the
 * output chain, the frame clock and the loudness watch; {@link close} ends them all.
 */
export class Player extends Watched<PlayerState> {
  private readonly record: RecordPlayback;
  private readonly clock = new FrameClock(
    () => this.timeSec,
    () => this.onFrame(),
  );
  private readonly loudness = new LoudnessWatch(
    () => this.chain,
    () => this.now().loop !== null && this.now().isPlaying,
    (isCautioned) => isCautioned !== this.now().isCautioned && this.tell({ isCautioned }),
  );
  private readonly inRecord = new NotesInRecord(this);
  /** Stretches that are played for themselves, as for a take. */
  readonly alone = new PassAlone(this);
  private chain: OutputChain | null = null;

  constructor(
    url: string,
    readonly durationSec: Seconds,
  ) {
    super(AT_FIRST);
    this.record = new RecordPlayback(url, durationSec, this.events, {
      now: this.now,
      tell: (fields) => this.tell(fields),
    });
  }

  /** Second of the record that is heard now. */
  get timeSec(): Seconds {
    return this.playback.timeSec;
  }

  get isPaused(): boolean {
    return this.playback.isPaused;
  }

  /** Whether the record sounds: it may be playing and yet be waiting, counted in, or on its way to another place. */
  get isRunning(): boolean {
    return this.playback.isRunning;
  }

  /** Whether {@link sounding} is known to the sample. */
  get isExact(): boolean {
    return this.playback.isExact;
  }

  /** Which second of the record sounds at which time of the audio context. */
  sounding(): Sounding {
    return this.playback.sounding();
  }

  /** The way to the ears; null before it was wanted. */
  get output(): OutputChain | null {
    return this.chain;
  }

  /** The way to the ears, opened when it is first wanted: from a person's own act, or browsers keep it silent. */
  openOutput(): OutputChain {
    if (this.chain) return this.chain;
    const chain = openOutputChain();
    this.chain = chain;
    applyToChain(chain, this.now());
    this.record.connect(chain);
    return chain;
  }

  /** Calls back with the time, every frame while playing and after each seek; returns the way to stop. */
  readonly onTime = this.clock.onTime;

  async play(): Promise<void> {
    this.goIntoLoop();
    await this.start(true);
  }

  /** Plays from a second of the record on, counted in where that is wanted. */
  async playFrom(timeSec: Seconds): Promise<void> {
    this.interrupt();
    this.jump(timeSec);
    await this.start(true);
  }

  /**
   * Plays notes where they sound in the record, all else faint, from a little before the first to the end of the last;
   * then the player is where it was, and plays on if it did. Pausing goes back at once, seeking stays where it leads.
   */
  async playNotes(notes: readonly TracedNote[], tuningCents: Cents): Promise<void> {
    await this.inRecord.play(notes, tuningCents);
  }

  pause(): void {
    this.playback.pause();
    this.inRecord.stop();
  }

  toggle(): void {
    if (this.now().isPlaying) this.pause();
    else void this.play();
  }

  seek(timeSec: Seconds): void {
    if (!this.inRecord.leave(timeSec)) this.jump(timeSec);
  }

  /** How the record is listened to, as plain data that can be kept and given back. */
  listening(): ListeningSettings {
    return this.now().listening;
  }

  /**
   * Listens in that way from now on; what is not given stays as it is. What only a record in memory can do
   * ({@link PlayerState.memory}) is kept and done as soon as it is there.
   */
  setListening(settings: Partial<ListeningSettings>): void {
    const before = this.listening();
    const listening = keptListening(settings, before);
    const { loop, timesThrough } = this.now();
    if (listening.ladder.isOn && loop && JSON.stringify(listening.ladder) !== JSON.stringify(before.ladder))
      listening.speed = ladderSpeed(listening.ladder, timesThrough);
    this.tell({ listening });
    this.record.applyPace();
    this.applyToChain();
  }

  /** By a person's own hand, which a speed ladder gives way to. */
  setSpeed(speed: number): void {
    this.setListening({ speed, ladder: { ...this.listening().ladder, isOn: false } });
  }

  setLevel(level: number): void {
    this.change({ level: Math.min(1, Math.max(0, level)) });
  }

  setMuted(isMuted: boolean): void {
    this.change({ isMuted });
  }

  /** Whether each beat clicks. */
  setClicking(isClicking: boolean): void {
    this.tell({ isClicking });
    this.record.applyClicking();
  }

  setClickLevel(level: number): void {
    this.change({ clickLevel: Math.min(1, Math.max(0, level)) });
  }

  /** The beats by which is counted in and clicked; null where none are known. */
  setBeats(grid: BeatGrid | null): void {
    this.record.setBeats(grid);
  }

  setLoop(loop: Loop | null): void {
    this.tell({ loop, timesThrough: 0 });
    const { ladder } = this.listening();
    if (loop && ladder.isOn) this.setListening({ speed: ladderSpeed(ladder, 0) });
    if (this.now().isOnNotes || this.now().pass) return;
    this.record.applyLoop();
    if (this.now().isPlaying) this.goIntoLoop();
  }

  /** Says whether something sounds beside the record that goes on and on: it counts as a loop does. */
  setEndless(isSounding: boolean): void {
    this.loudness.setEndless(isSounding);
  }

  close(): void {
    this.loudness.close();
    this.clock.close();
    this.record.close();
    this.chain?.close();
    this.leaveWatchers();
  }

  /** Goes elsewhere, whatever is heard. */
  jump(timeSec: Seconds): void {
    this.playback.seek(timeSec);
  }

  /** Begins to sound. @param isCountedIn whether bars are counted in before */
  async start(isCountedIn: boolean): Promise<void> {
    const chain = this.openOutput();
    this.inRecord.follow();
    await chain.resume();
    await this.playback.play(isCountedIn);
  }

  /** Stops what is heard, notes in the record too, before something else is. */
  interrupt(): void {
    this.inRecord.leave();
    this.halt();
  }

  halt(): void {
    if (!this.playback.isPaused) this.playback.pause();
  }

  /** Tells of a stretch that is played for itself: how the record is heard goes by that alone. */
  tellPass(pass: Pass | null): void {
    this.tell({ pass });
  }

  /** Turns to it with speed and loop, or back. */
  setPass(pass: Pass | null): void {
    this.tellPass(pass);
    this.record.applyPace();
    this.record.applyLoop();
  }

  /** Turns to hearing notes in the record, or back: there is no loop in it, and no click. */
  setOnNotes(isOnNotes: boolean): void {
    this.change({ isOnNotes });
    this.record.applyLoop();
    this.record.applyClicking();
  }

  private get playback(): Playback {
    return this.record.now;
  }

  /** To where the loop begins, with what leads into it, unless the record is in there; nothing while a pass is played. */
  private goIntoLoop(): void {
    const { loop, listening, pass } = this.now();
    if (!loop || pass) return;
    const beginSec = Math.max(0, loop.startSec - listening.preRollSec);
    if (this.timeSec < beginSec - 0.01 || this.timeSec >= loop.endSec - 0.02) this.seek(beginSec);
  }

  private applyToChain(): void {
    if (this.chain) applyToChain(this.chain, this.now());
  }

  /** What happens to the playback there is: each tells until another takes its place. */
  private readonly events: PlaybackEvents = {
    began: () => {
      this.tell({ isPlaying: true, fault: null });
      this.clock.run();
    },
    stopped: () => this.end(),
    ended: () => {
      this.end();
      this.inRecord.leave();
    },
    moved: () => this.clock.tell(),
    passed: () => this.inRecord.follow(),
    turned: (timesThrough, speed) => {
      if (this.now().pass) return;
      this.tell({ timesThrough });
      if (this.listening().ladder.isOn && speed !== this.now().speed)
        this.tell({ speed, listening: { ...this.listening(), speed } });
    },
    failed: (fault) => {
      this.inRecord.fail();
      this.tell({ isPlaying: false, fault });
    },
  };

  /** Tells what is otherwise now, on the way to the ears too. */
  private change(fields: Partial<PlayerState>): void {
    this.tell(fields);
    this.applyToChain();
  }

  private onFrame(): void {
    this.playback.look();
    this.inRecord.follow();
    this.loudness.look();
  }

  private end(): void {
    this.clock.stop();
    this.tell({ isPlaying: false });
    this.clock.tell();
  }
}
