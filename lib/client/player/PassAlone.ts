import type { Seconds } from "@/lib/units/quantities";
import type { Loop } from "../playback/playbackMessages";
import type { Pass, PlayerState } from "./PlayerState";

/** What of a record's player is needed. */
export interface PassPlayer {
  now(): Pick<PlayerState, "pass">;
  tellPass(pass: Pass): void;
  setPass(pass: Pass | null): void;
  interrupt(): void;
  halt(): void;
  jump(timeSec: Seconds): void;
  start(isCountedIn: boolean): Promise<void>;
}

/** Has a stretch played for itself, whatever is looped; then the player practises as before. */
export class PassAlone {
  constructor(private readonly player: PassPlayer) {}

  /**
   * Plays it as often and as fast as it says, counted in as it says. It is left by {@link leave}; whoever plays it does so
   * when it has been heard.
   */
  async play(pass: Pass): Promise<void> {
    const { player } = this;
    player.interrupt();
    player.setPass(pass);
    player.jump(pass.fromSec);
    await player.start(true);
  }

  /** Over and over, or once, from now on. */
  setLoop(loop: Loop | null): void {
    const { pass } = this.player.now();
    if (pass) this.player.setPass({ ...pass, loop });
  }

  /** Hears the record in another way from now on. */
  setRecord(record: Pass["record"]): void {
    const { pass } = this.player.now();
    if (pass && pass.record !== record) this.player.tellPass({ ...pass, record });
  }

  /** Goes back to how one practises; nothing where no pass is being played. */
  leave(): void {
    const { player } = this;
    if (!player.now().pass) return;
    player.halt();
    player.setPass(null);
  }
}
