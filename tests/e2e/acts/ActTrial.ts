import { expect, type Page } from "@playwright/test";
import { KEY_TABLE } from "@/app/songs/[songId]/parts/keyTable";
import { actsOfRow } from "@/lib/client/acts/keyRow";
import type { KeyPress } from "@/lib/client/acts/readKeys";
import { Hand } from "./Hand";
import { type Drill, drillsOf } from "./Proof";
import { PROOFS } from "./proofs";
import { type Reading, read } from "./readings";
import type { SongReplica } from "./SongReplica";
import { putAllAway, stand } from "./standings";

/** An act that has had no effect by then has none. */
const EFFECT_WITHIN_MS = 4_000;
const LOOK_EVERY_MS = 20;

export interface NamedDrill {
  /** The group and the key of its row. */
  name: string;
  keys: readonly string[];
  drill: Drill;
}

/** As Playwright names the press of a key. */
function pressOf({ key, ctrlKey, altKey, shiftKey }: KeyPress): string {
  const held = [ctrlKey && "Control", altKey && "Alt", shiftKey && "Shift"].filter(Boolean);
  return [...held, key === " " ? "Space" : key].join("+");
}

/** All drills of the table of proofs, in its order. */
export const DRILLS: readonly NamedDrill[] = Object.entries(PROOFS).flatMap(([group, proofs]) => {
  const rows = KEY_TABLE.filter(({ name }) => name === group).flatMap(({ keys }) => keys.flatMap(actsOfRow));
  return rows.flatMap(({ label, press }) =>
    drillsOf(proofs[label] ?? []).map((drill) => ({
      name: `${group}, ${label}`,
      keys: drill.keys ?? (press ? [pressOf(press)] : []),
      drill,
    })),
  );
});

/** Does acts by key and by mouse on an opened song, and reads the effect of both. */
export class ActTrial {
  private readonly hand: Hand;
  /** As it is before each act. */
  private readonly song: string;

  constructor(
    private readonly page: Page,
    private readonly replica: SongReplica,
  ) {
    this.hand = new Hand(page);
    this.song = replica.text();
  }

  /** @throws where a way has no effect, or another than the other way */
  async both({ keys, drill }: NamedDrill): Promise<void> {
    const { page, hand } = this;
    const { at, by, reads, isRough } = drill;
    const byKey = await this.once(drill, "key", async () => {
      for (const key of keys) await page.keyboard.press(key);
    });
    await this.restore(drill);
    const byMouse = await this.once(drill, "mouse", () => by(hand));
    if (!isRough && byMouse !== byKey) {
      // What comes later still may make it the same.
      const isSame = await expect
        .poll(() => this.look(reads), { timeout: 1_000, intervals: [LOOK_EVERY_MS] })
        .toBe(byKey)
        .then(
          () => true,
          () => false,
        );
      if (!isSame)
        throw new Error(`at ${at} by key: ${excerpt(byKey, byMouse)}; by mouse: ${excerpt(byMouse, byKey)}`);
    }
    await this.restore(drill);
  }

  /** Takes back what was done until the song is as it was. @throws where it cannot be */
  async restore({ back = [] }: Drill): Promise<void> {
    const { page, replica, song } = this;
    await putAllAway(page);
    for (const key of back) await page.keyboard.press(key);
    if (replica.text() === song) return;
    for (let undo = 0; undo < 6 && replica.text() !== song; undo += 1) {
      const before = await this.settled("song");
      if (before === song) break;
      await page.keyboard.press("Control+z");
      // Where nothing is left to be taken back, the poll below says so.
      await expect
        .poll(() => replica.text() !== before, { timeout: 1_500, intervals: [LOOK_EVERY_MS] })
        .toBe(true)
        .catch(() => {});
    }
    await expect
      .poll(() => excerpt(replica.text(), song), { timeout: EFFECT_WITHIN_MS, intervals: [LOOK_EVERY_MS] })
      .toBe("");
    await putAllAway(page);
  }

  private look(what: Reading): Promise<string> {
    return read(what, this.page, this.replica);
  }

  /** What is read when all that led there has come. */
  private async settled(what: Reading): Promise<string> {
    for (let last = await this.look(what); ; ) {
      if (what !== "song") return last;
      await this.page.waitForTimeout(2 * LOOK_EVERY_MS);
      const now = await this.look(what);
      if (now === last) return now;
      last = now;
    }
  }

  private async once(
    { at, reads }: Drill,
    way: "key" | "mouse",
    act: () => Promise<unknown>,
  ): Promise<string> {
    await stand(this.hand, at);
    const before = await this.settled(reads);
    await act();
    const untilMs = performance.now() + EFFECT_WITHIN_MS;
    let last = before;
    for (;;) {
      const now = await this.look(reads);
      // At rest, but for what goes on.
      if (now !== before && (now === last || reads === "clock")) return now;
      if (performance.now() > untilMs)
        throw new Error(
          `by ${way} it ${now === before ? "has no effect" : "does not come to rest"}: ${now.slice(0, 80)}`,
        );
      last = now;
      await this.page.waitForTimeout(LOOK_EVERY_MS);
    }
  }
}

/** Where a text differs from another; empty where it does not. */
function excerpt(text: string, other: string): string {
  if (text === other) return "";
  let at = 0;
  while (at < text.length && text[at] === other[at]) at += 1;
  return `…${text.slice(Math.max(0, at - 40), at + 80)}…`;
}
