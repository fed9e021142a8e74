import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Player } from "@/lib/client/player/Player";
import { AFTER_SEC, type Band, BEFORE_SEC, bandsAt } from "@/lib/client/player/partialBands";
import type { TracedNote } from "@/lib/client/song/noteTrace";
import { midiToHertz } from "@/lib/units/pitch";

/** What the player lets through: the bands, or all. */
const heard = vi.hoisted(() => ({ now: "all" as "all" | readonly Band[] }));

vi.mock("@/lib/client/player/outputChain", async () => {
  const { silentOutput } = await import("./player/silentOutput");
  const letThrough = (bands: readonly Band[]) => {
    heard.now = bands;
  };
  const letAllThrough = () => {
    heard.now = "all";
  };
  return silentOutput({ filter: { letThrough, letAllThrough } });
});

/** A media element whose time goes on when it is told to. */
class Media extends EventTarget {
  currentTime = 0;
  playbackRate = 1;
  paused = true;
  ended = false;
  seeking = false;
  error = null;
  async play() {
    this.paused = false;
    this.dispatchEvent(new Event("play"));
  }
  pause() {
    if (this.paused) return;
    this.paused = true;
    this.dispatchEvent(new Event("pause"));
  }
  /** Plays on, a little at a time, as the browser's own clock would tell of it. */
  goOn(seconds: number) {
    for (let step = 0; step < 100 && !this.paused; step += 1) {
      this.currentTime += seconds / 100;
      this.dispatchEvent(new Event("timeupdate"));
    }
  }
}

const NOTE: TracedNote = {
  ...{ startSec: 5, endSec: 6, midi: 57 },
  glides: [{ kind: "bar", toMidi: 69, atSec: 5.5, durationSec: 0.2 }],
};
let media: Media;

beforeEach(() => {
  heard.now = "all";
  vi.stubGlobal(
    "Audio",
    class extends Media {
      constructor() {
        super();
        media = this;
      }
    },
  );
  vi.stubGlobal("requestAnimationFrame", () => 0);
  vi.stubGlobal("cancelAnimationFrame", () => {});
});
afterEach(() => vi.unstubAllGlobals());

async function playingNote(before: (player: Player) => Promise<void> | void = () => {}): Promise<Player> {
  const player = new Player("record", 20);
  await before(player);
  await player.playNotes([NOTE], 0);
  return player;
}

describe("notes heard in the record", () => {
  it("are played from a little before their start to a little after their end, then the record stands where it stood", async () => {
    const player = await playingNote((still) => still.seek(12));
    expect(player.timeSec).toBeCloseTo(5 - BEFORE_SEC, 9);
    expect(player.now()).toMatchObject({ isPlaying: true, isOnNotes: true });
    media.goOn(1 + BEFORE_SEC);
    expect(player.now().isOnNotes).toBe(true);
    expect(heard.now).not.toBe("all");
    media.goOn(2 * AFTER_SEC);
    expect(player.timeSec).toBe(12);
    expect(player.now()).toMatchObject({ isPlaying: false, isOnNotes: false });
    expect(heard.now).toBe("all");
  });

  it("leave speed and loop as they were, and the loop does not cut them short", async () => {
    const loop = { startSec: 1, endSec: 2 };
    const player = await playingNote((still) => {
      still.setSpeed(0.5);
      still.setLoop(loop);
      still.seek(1.5);
    });
    media.goOn(0.5);
    expect(player.timeSec).toBeGreaterThan(5);
    media.goOn(2);
    expect(player.timeSec).toBe(1.5);
    expect(player.now()).toMatchObject({ speed: 0.5, loop, timesThrough: 0 });
    expect(media.playbackRate).toBe(0.5);
  });

  it("let the record play on where it was playing", async () => {
    const player = await playingNote((still) => still.play());
    expect(media.currentTime).toBeCloseTo(5 - BEFORE_SEC, 9);
    media.goOn(1.3);
    expect(player.now()).toMatchObject({ isPlaying: true, isOnNotes: false });
    expect(player.timeSec).toBeLessThan(0.2);
  });

  it("follow one another without forgetting where the record stood", async () => {
    const player = await playingNote((still) => still.seek(12));
    media.goOn(0.5);
    await player.playNotes([{ ...NOTE, startSec: 8, endSec: 9, glides: [] }], 0);
    expect(player.timeSec).toBeCloseTo(8 - BEFORE_SEC, 9);
    media.goOn(2);
    expect(player.timeSec).toBe(12);
    expect(player.now().isPlaying).toBe(false);
  });

  it("go back at once where they are paused, and stay where one seeks to", async () => {
    const paused = await playingNote((still) => still.seek(12));
    media.goOn(0.5);
    paused.toggle();
    expect(paused.timeSec).toBe(12);
    expect(paused.now()).toMatchObject({ isPlaying: false, isOnNotes: false });
    expect(heard.now).toBe("all");
    const sought = await playingNote((still) => still.seek(12));
    media.goOn(0.5);
    sought.seek(3);
    expect(sought.timeSec).toBe(3);
    expect(heard.now).toBe("all");
  });

  it("play to the end of the record, and no further", async () => {
    const player = await playingNote();
    await player.playNotes([{ ...NOTE, startSec: 19.5, endSec: 20, glides: [] }], 0);
    media.currentTime = 20;
    media.paused = true;
    media.dispatchEvent(new Event("ended"));
    expect(player.timeSec).toBe(0);
    expect(player.now()).toMatchObject({ isPlaying: false, isOnNotes: false });
    await player.playNotes([], 0);
    expect(player.now().isOnNotes).toBe(false);
  });
});

describe("the bands of notes", () => {
  const open = (bands: readonly Band[]) =>
    bands.filter(({ gain }) => gain > 0).map(({ frequencyHz }) => frequencyHz);

  it("lie at the fundamental and its multiples, in tune with the record, and follow a glide", () => {
    const at = (timeSec: number) => open(bandsAt([NOTE], timeSec, 30));
    const fundamental = midiToHertz(57, 30);
    expect(at(5.2)).toEqual([1, 2, 3, 4, 5, 6].map((partial) => partial * fundamental));
    // Middle of the slide: half way in pitch.
    expect(at(5.5)[0]).toBeCloseTo(midiToHertz(63, 30), 6);
    expect(at(5.9)[0]).toBeCloseTo(2 * fundamental, 6);
  });

  it("are open while the note sounds, and a little longer to either side", () => {
    expect(open(bandsAt([NOTE], 4, 0))).toEqual([]);
    expect(open(bandsAt([NOTE], 5 - BEFORE_SEC / 2, 0))).toHaveLength(6);
    expect(open(bandsAt([NOTE], 6 + 2 * AFTER_SEC, 0))).toEqual([]);
  });

  it("keep their names and stand closed at first and at last, so that they fade", () => {
    const names = (timeSec: number) => bandsAt([NOTE], timeSec, 0).map(({ id }) => id);
    const before = 5 - BEFORE_SEC - 0.1;
    expect(open(bandsAt([NOTE], before, 0))).toEqual([]);
    expect(names(before)).toEqual(names(5.5));
    expect(names(6 + AFTER_SEC + 0.1)).toEqual(names(5.5));
    expect(new Set(names(5.5)).size).toBe(6);
  });

  it("are no more than those about this moment, however many notes there are", () => {
    const song = Array.from({ length: 600 }, (_, at) => ({
      ...NOTE,
      startSec: at,
      endSec: at + 0.9,
      glides: [],
    }));
    const bands = bandsAt(song, 300.5, 0);
    expect(bands.length).toBeGreaterThan(0);
    expect(bands.length).toBeLessThanOrEqual(3 * 6);
    expect(new Set(bands.map(({ id }) => id)).size).toBe(bands.length);
  });

  it("hold what two notes share once, so that nothing is doubled", () => {
    const octave = { ...NOTE, midi: 69, glides: [] };
    const low = { ...NOTE, glides: [] };
    const shared = open(bandsAt([low, octave], 5.5, 0));
    const ratios = [...shared]
      .sort((a, b) => a - b)
      .map((hz, index, all) => (index === 0 ? 2 : hz / all[index - 1]!));
    expect(Math.min(...ratios)).toBeGreaterThan(2 ** (0.5 / 12));
    expect(shared).toHaveLength(6 + 3);
  });

  it("leave out what lies too high to be a string's", () => {
    const high = open(bandsAt([{ ...NOTE, midi: 100, glides: [] }], 5.5, 0));
    expect(high.length).toBeLessThan(6);
    expect(Math.max(...high)).toBeLessThanOrEqual(7000);
  });
});
