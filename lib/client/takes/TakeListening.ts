import { secondOfRecord, type Take } from "@/lib/contracts/takes";
import type { Player } from "../player/Player";
import { wordsOf } from "../requests/request";
import { Watched } from "../watched/Watched";
import { TakeFollower } from "./TakeFollower";
import type { TakeSounds } from "./TakeSounds";
import type { TakeHeard } from "./takeHeard";
import { NOTHING_HEARD, type TakeListeningState } from "./takeStates";

/** Of the record: it goes on so long after a take that is heard once, so that its last note rings out. */
const RING_SEC = 0.3;
const RECORD_FOR = { take: "silent", both: "left", record: "whole" } as const;

/**
 * Has a take heard beside the record, at the speed at which it was played: the record runs, heard or not, and the take goes
 * with it. Afterwards the page practises as before.
 */
export class TakeListening extends Watched<TakeListeningState> {
  private take: Take | null = null;
  private follower: TakeFollower | null = null;
  private stops: (() => void)[] = [];
  private turn = 0;

  constructor(
    private readonly player: Player,
    private readonly sounds: Pick<TakeSounds, "samples">,
  ) {
    super(NOTHING_HEARD);
  }

  /** Hears a take from its beginning; the same that is being heard goes on, in the new way. To be called from a press. */
  async hear(take: Take, heard: TakeHeard): Promise<void> {
    const { player } = this;
    if (this.take?.id === take.id && this.follower) {
      this.tell({ heard });
      this.setWay();
      return;
    }
    this.stop();
    this.turn += 1;
    const { turn } = this;
    this.take = take;
    this.tell({ takeId: take.id, heard, isFetching: true, fault: null });
    try {
      const chain = player.openOutput();
      const [samples] = await Promise.all([this.sounds.samples(take.id), chain.resume()]);
      if (turn !== this.turn) return;
      this.follower = new TakeFollower(take, samples, chain.beside);
      this.tell({ isFetching: false });
      await player.alone.play(this.pass());
      if (turn !== this.turn) return;
      this.setWay();
      this.stops = [player.onTime(() => this.follow()), player.watch(() => this.onPlayer())];
      this.follow();
    } catch (thrown) {
      if (turn !== this.turn) return;
      this.stop();
      this.tell({ fault: { takeId: take.id, words: wordsOf(thrown) } });
    }
  }

  /** Over and over, or once. */
  setLooping(isLooping: boolean): void {
    this.tell({ isLooping });
    if (this.follower) this.player.alone.setLoop(this.pass().loop);
  }

  /** @returns whether one was heard */
  stop(): boolean {
    const { take } = this;
    if (!take) return false;
    this.turn += 1;
    for (const stop of this.stops) stop();
    this.stops = [];
    this.follower?.close();
    this.follower = null;
    this.take = null;
    this.tell({ takeId: null, isFetching: false });
    if (this.player.now().pass) {
      this.player.alone.leave();
      this.player.seek(take.startSec);
    }
    return true;
  }

  close(): void {
    this.stop();
    this.leaveWatchers();
  }

  private pass() {
    const take = this.take!;
    const startSec = Math.max(0, secondOfRecord(take, 0));
    return {
      fromSec: startSec,
      speed: take.speed,
      loop: this.now().isLooping ? { startSec, endSec: take.endSec } : null,
      countInBars: 0,
      record: RECORD_FOR[this.now().heard],
    };
  }

  private setWay(): void {
    const { heard } = this.now();
    this.player.alone.setRecord(RECORD_FOR[heard]);
    this.follower?.setWay(heard, this.player.now().level);
  }

  private follow(): void {
    const { player, follower, take } = this;
    if (!follower || !take) return;
    follower.follow(player.isRunning ? player.sounding() : null);
    const isOver = player.timeSec >= Math.min(take.endSec + RING_SEC * take.speed, player.durationSec);
    if (isOver && !this.now().isLooping) this.stop();
  }

  private onPlayer(): void {
    const { pass, isPlaying, isOnNotes, level } = this.player.now();
    if (!this.follower) return;
    if (!pass || !isPlaying || isOnNotes) this.stop();
    else this.follower.setWay(this.now().heard, level);
  }
}
