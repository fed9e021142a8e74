import { beforeEach, describe, expect, it } from "vitest";
import { type Listen, type MixGains, mixGains } from "@/lib/client/player/ListenMix";
import type { Player } from "@/lib/client/player/Player";
import type { PlayerState } from "@/lib/client/player/PlayerState";
import { SteelPlayer, type SteelScore } from "@/lib/client/sound/SteelPlayer";
import type { SoundMessage } from "@/lib/client/sound/soundMessages";
import type { BankNote } from "@/lib/synth/StringSet";

const note = (id: string) => ({ id }) as BankNote;
const PART = [note("part")];
const partOfPart = () => PART;
const BAND = [note("band")];

/** A record's player that stands where it is put. */
class FakePlayer {
  timeSec = 0;
  isRunning = true;
  isExact = false;
  isEndless = false;
  gains: MixGains | null = null;
  context = { currentTime: 0 };
  state = { isPlaying: false, speed: 1, isOnNotes: false, pass: null } as PlayerState;
  output: unknown = null;
  private readonly timeListeners = new Set<() => void>();
  private readonly stateListeners = new Set<() => void>();

  now = () => this.state;
  sounding = () => ({
    ...{ sec: this.timeSec, atSec: this.context.currentTime, speed: this.state.speed },
  });
  onTime = (listener: () => void) => {
    this.timeListeners.add(listener);
    return () => this.timeListeners.delete(listener);
  };
  watch = (listener: () => void) => {
    this.stateListeners.add(listener);
    return () => this.stateListeners.delete(listener);
  };
  setEndless(isEndless: boolean) {
    this.isEndless = isEndless;
  }
  openOutput() {
    this.output = {
      context: this.context,
      mix: {
        set: (gains: MixGains) => {
          this.gains = gains;
        },
      },
      resume: async () => {},
    };
    return this.output;
  }
  become(fields: Partial<PlayerState>) {
    this.state = { ...this.state, ...fields };
    for (const listener of this.stateListeners) listener();
  }
  runTo(timeSec: number) {
    this.context.currentTime += 0.016;
    this.timeSec = timeSec;
    for (const listener of this.timeListeners) listener();
  }
}

let player: FakePlayer;
let told: SoundMessage[];
let fault: Error | null;
let steel: SteelPlayer;
let detach: () => void;
let measured: { speed: number; isDone: boolean }[];

beforeEach(() => {
  player = new FakePlayer();
  told = [];
  fault = null;
  const strings = {
    open: async () => {
      if (fault) throw fault;
    },
    tell: (message: SoundMessage) => void told.push(message),
    close: () => void told.push({ kind: "close" }),
  };
  measured = [];
  const offsets = {
    at: (speed: number) => (speed === 0.5 ? 0.03 : 0),
    measure: async (_: unknown, speed: number) => {
      if (measured.at(-1)?.isDone === false) return;
      const one = { speed, isDone: false };
      measured.push(one);
      await new Promise((resolve) => setTimeout(resolve, 1));
      one.isDone = true;
    },
  };
  steel = new SteelPlayer(player as unknown as Player, strings, offsets);
  detach = steel.attach();
  steel.setScore({
    parts: [{ id: "1", level: 1, notes: partOfPart }],
    band: () => BAND,
    droneAt: (sec) => [note(sec < 10 ? "on G" : "on A")],
  });
});

const played = (group: string) =>
  told.findLast((message) => message.kind === "play" && message.group === group) as
    | { notes: readonly BankNote[] }
    | undefined;
const song = () => told.findLast((message) => message.kind === "song" || message.kind === "halt");

describe("what is listened to", () => {
  it("the record as it is, the record left and the parts right, the parts alone", () => {
    expect(mixGains("record", 0.5)).toEqual({ record: 1, recordLeft: 0, parts: 0, partsRight: 0 });
    expect(mixGains("both", 0)).toEqual({ record: 0, recordLeft: 1, parts: 0, partsRight: 1 });
    expect(mixGains("parts", -1)).toEqual({ record: 0, recordLeft: 0, parts: 1, partsRight: 0 });
  });

  it("with both the balance takes from the one or from the other, and never lifts either", () => {
    expect(mixGains("both", -1)).toMatchObject({ recordLeft: 1, partsRight: 0 });
    expect(mixGains("both", 0.25)).toMatchObject({ recordLeft: 0.75, partsRight: 1 });
    for (let balance = -1; balance <= 1; balance += 0.1)
      for (const gain of Object.values(mixGains("both", balance))) expect(gain).toBeLessThanOrEqual(1);
  });

  it("goes round: record, both, parts", async () => {
    const order: Listen[] = [];
    for (let turn = 0; turn < 3; turn += 1) {
      await steel.nextListen();
      order.push(steel.now().listen);
    }
    expect(order).toEqual(["both", "parts", "record"]);
    expect(player.gains).toEqual(mixGains("record", 0));
  });

  it("has the record on its side before the strings have come, and whole again where they cannot", async () => {
    const wanted = steel.setListen("both");
    expect(player.gains).toEqual(mixGains("both", 0));
    await wanted;
    await steel.setListen("record");
    fault = new Error("The steel cannot sound here.");
    await steel.setListen("both");
    expect(player.gains).toEqual(mixGains("record", 0));
  });

  it("is the record, whole, while notes are heard in it", async () => {
    await steel.setListen("parts");
    player.become({ isOnNotes: true });
    expect(player.gains).toEqual(mixGains("record", 0));
    player.become({ isOnNotes: false });
    expect(player.gains).toEqual(mixGains("parts", 0));
  });
});

describe("the steel beside the record", () => {
  it("is silent, and nothing is started, until it is wanted", () => {
    player.become({ isPlaying: true });
    player.runTo(1);
    player.runTo(1.1);
    expect(told).toEqual([]);
    expect(player.output).toBeNull();
  });

  it("plays the part where the record is heard, once it has moved on from where it was sent", async () => {
    await steel.setListen("both");
    expect(played("part:1")?.notes).toBe(PART);
    player.runTo(2);
    player.become({ isPlaying: true });
    player.runTo(2);
    expect(song()).toBeUndefined();
    player.runTo(2.02);
    expect(song()).toMatchObject({ kind: "song", sec: 2.02, speed: 1, atSec: player.context.currentTime });
  });

  it("stands still with the record: paused, waiting for its bytes, on its way to the loop's start", async () => {
    await steel.setListen("both");
    player.become({ isPlaying: true });
    player.runTo(1);
    player.runTo(2);
    player.isRunning = false;
    player.runTo(0.5);
    expect(song()).toEqual({ kind: "halt" });
    player.isRunning = true;
    player.runTo(0.5);
    expect(song()).toEqual({ kind: "halt" });
    player.runTo(0.51);
    expect(song()).toMatchObject({ kind: "song", sec: 0.51 });
  });

  it("makes good by how much a slowed record is heard ahead of its own clock", async () => {
    player.become({ isPlaying: true, speed: 0.5 });
    await steel.setListen("both");
    player.runTo(1);
    player.runTo(1.01);
    expect(song()).toMatchObject({ kind: "song", speed: 0.5 });
    expect((song() as { sec: number }).sec).toBeCloseTo(1.04, 9);
  });

  it("has each speed measured in turn, and at last the one that it stays at", async () => {
    await steel.setListen("both");
    player.become({ speed: 0.95 });
    player.become({ speed: 0.7 });
    player.become({ speed: 0.5 });
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(measured.at(-1)?.speed).toBe(0.5);
  });

  it("takes another part as it is given, and none of it where the record is heard alone", async () => {
    await steel.setListen("both");
    const other = [note("other")];
    const parts = [{ id: "1", level: 1, notes: () => other }];
    steel.setScore({ parts, band: () => BAND, droneAt: () => [] });
    expect(played("part:1")?.notes).toBe(other);
    await steel.setListen("record");
    expect(played("part:1")?.notes).toEqual([]);
  });

  it("turns to both where a place is sounded while the record is heard alone", async () => {
    await steel.soundSteel(PART);
    expect(steel.now().listen).toBe("both");
    expect(played("steelNow")?.notes).toBe(PART);
  });

  it("says why nothing sounds, and leaves the record as it was", async () => {
    fault = new Error("The steel cannot sound here.");
    await steel.setListen("both");
    expect(steel.now()).toMatchObject({ listen: "record", fault: "The steel cannot sound here." });
    fault = null;
    await steel.setListen("both");
    expect(steel.now()).toMatchObject({ listen: "both", fault: null });
  });

  it("ends with the page", () => {
    detach();
    expect(told.at(-1)).toEqual({ kind: "close" });
    player.become({ isPlaying: true });
    player.runTo(3);
    expect(told.at(-1)).toEqual({ kind: "close" });
  });
});

describe("several parts", () => {
  const fiddle = [note("fiddle")];
  const notes = () => fiddle;
  const score = (parts: SteelScore["parts"]) => ({ parts, band: () => BAND, droneAt: () => [] });
  const inHand = { id: "1", level: 1, notes: partOfPart };
  const level = (group: string) =>
    told.flatMap((message) => (message.kind === "level" && message.group === group ? [message.level] : []));

  it("sound each as a group of its own, at its level, and only those that are new are told", async () => {
    steel.setScore(score([inHand]));
    await steel.setListen("both");
    const before = told.length;
    steel.setScore(score([inHand, { id: "2", level: 0.5, notes }]));
    expect(told.slice(before)).toEqual([
      { kind: "play", group: "part:2", notes: fiddle },
      { kind: "level", group: "part:2", level: 0.5 },
    ]);
    steel.setScore(score([inHand, { id: "2", level: 0.25, notes }]));
    expect(told.at(-1)).toEqual({ kind: "level", group: "part:2", level: 0.25 });
    expect(told).toHaveLength(before + 3);
    steel.setScore(score([inHand]));
    expect(told.slice(before + 3)).toEqual([{ kind: "play", group: "part:2", notes: [] }]);
  });

  it("sound on where another of them is taken in hand", async () => {
    const beside = { id: "2", level: 1, notes };
    steel.setScore(score([inHand, beside]));
    await steel.setListen("parts");
    const before = told.length;
    steel.setScore(score([beside, inHand]));
    expect(told.slice(before)).toEqual([]);
  });

  it("are all silent with the record alone, and have their levels again after it", async () => {
    steel.setScore(score([inHand, { id: "2", level: 0.5, notes }]));
    await steel.setListen("both");
    await steel.setListen("record");
    expect([played("part:1")?.notes, played("part:2")?.notes]).toEqual([[], []]);
    await steel.setListen("both");
    expect(played("part:2")?.notes).toBe(fiddle);
    expect(level("part:2")).toEqual([0.5, 0.5]);
  });
});

describe("what goes with it", () => {
  it("bass and chords follow the record with the record alone too", async () => {
    await steel.setBand(true);
    player.become({ isPlaying: true });
    player.runTo(1);
    player.runTo(1.1);
    expect(played("band")?.notes).toBe(BAND);
    expect(song()).toMatchObject({ kind: "song", sec: 1.1 });
    await steel.setBand(false);
    expect(played("band")?.notes).toEqual([]);
  });

  it("the drone holds the home of the place, changes with it, and counts as a loop for the ears", async () => {
    await steel.setDrone(true);
    expect(played("drone")?.notes).toEqual([note("on G")]);
    expect(player.isEndless).toBe(true);
    const before = told.length;
    player.runTo(5);
    expect(told.slice(before).filter(({ kind }) => kind === "play")).toEqual([]);
    player.runTo(12);
    expect(played("drone")?.notes).toEqual([note("on A")]);
    await steel.setDrone(false);
    expect(played("drone")?.notes).toEqual([]);
    expect(player.isEndless).toBe(false);
  });

  it("a change over and over counts as a loop until it is stopped", async () => {
    await steel.soundBand(BAND, true);
    expect([played("bandNow")?.notes, player.isEndless, steel.now().isRepeating]).toEqual([BAND, true, true]);
    steel.stopBand();
    expect([played("bandNow")?.notes, player.isEndless, steel.now().isRepeating]).toEqual([[], false, false]);
  });
});
