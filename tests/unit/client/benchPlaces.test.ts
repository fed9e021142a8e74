import { describe, expect, it } from "vitest";
import { type BenchQuestion, narrowed } from "@/lib/client/places/BenchQuestion";
import { answerBench } from "@/lib/client/places/benchPlaces";
import {
  type HeldLocks,
  lockTags,
  NOTHING_HELD,
  partLocksOf,
  placeLocksOf,
  withoutOwn,
} from "@/lib/client/places/HeldLocks";
import { LockStore } from "@/lib/client/places/LockStore";
import { PlaceFinder } from "@/lib/client/places/PlaceFinder";
import { PlacesAnswerer } from "@/lib/client/places/PlacesAnswerer";
import type { PlacesOrder } from "@/lib/client/places/placesMessages";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { E9 } from "@/lib/instrument/copedents/e9";

const G = { tonic: "G", mode: "major" } as const;
const event = (startSec: number): ShownPart => ({
  ...{ id: `e${startSec}`, mark: "ink", madeBy: "ann", madeAtMs: 0, editedBy: "ann", editedAtMs: 0 },
  ...{ part: "part", confidence: null, startSec, endSec: startSec + 1, writtenEndSec: startSec + 1 },
  ...{ strings: [4], writtenStrings: [4], fret: 3, changes: [], articulation: "pick" },
});
const question = (more: Partial<BenchQuestion> = {}): BenchQuestion => ({
  ...{ copedent: E9, midis: [62, 71], timeSec: 20, key: G, part: [event(18)], changes: [], event: null },
  ...{ handed: [], kept: [], locks: {}, slants: false, count: 8 },
  ...more,
});
const passage = {
  copedent: E9,
  notes: [{ startSec: 0, endSec: 1, midi: 67, glides: [], confidence: null }],
  around: { key: G, changes: [], kept: [] },
};

/** A worker that answers what the real one would, one turn later; messages are copied as between threads. */
class FalseWorker {
  onmessage: ((message: { data: unknown }) => void) | null = null;
  onerror: (() => void) | null = null;
  isEnded = false;
  private readonly answerer = new PlacesAnswerer();

  constructor(private readonly isDeaf = false) {}

  postMessage(order: PlacesOrder) {
    const copy = structuredClone(order);
    setTimeout(() => {
      if (this.isEnded || this.isDeaf) return;
      this.onmessage?.({ data: structuredClone(this.answerer.answer(copy)) });
    });
  }

  terminate() {
    this.isEnded = true;
  }
}
const finderWith = (...workers: FalseWorker[]) => new PlaceFinder(() => workers.shift() as unknown as Worker);

it("where home is not seen, no place is told as a position of it", () => {
  const isOfHome = (more: Partial<BenchQuestion>) =>
    answerBench(question(more)).places.some(({ terms }) =>
      terms.some(({ name }) => name === "position of home"),
    );
  expect(isOfHome({})).toBe(true);
  expect(isOfHome({ key: undefined })).toBe(false);
});

describe("places found off the page's thread", () => {
  it("are those that the page would find, each with its terms and reason", async () => {
    const found = await finderWith(new FalseWorker()).bench(question());
    expect(found).toEqual(answerBench(question()));
    expect(found.places.length).toBeGreaterThan(3);
    expect(found.places[0]!.cost).toBe(found.easiestCost);
    for (const { terms, cost } of found.places)
      expect(terms.reduce((sum, term) => sum + term.cost, 0)).toBeCloseTo(cost, 9);
  });

  it("go on through the glides of heard notes, and are sent with no more of the song than they look at", () => {
    const glide = { kind: "pedal" as const, toMidi: 64, atSec: 20.5, durationSec: 0.1 };
    const handed = [
      { startSec: 20, endSec: 21, midi: 62, glides: [glide], confidence: null },
      { startSec: 20, endSec: 21, midi: 67, glides: [], confidence: null },
    ];
    const asked = question({
      midis: [62, 67],
      handed,
      part: [event(1), event(18), event(300)],
      kept: [event(18)],
    });
    const sent = narrowed(asked);
    expect(sent.part.map(({ startSec }) => startSec)).toEqual([18]);
    const { places, ways } = answerBench(sent);
    expect(answerBench(asked)).toEqual({ ...answerBench(sent) });
    const easiest = ways[0]!.events;
    expect(easiest.map(({ changes }) => changes.join(""))).toEqual([places[0]!.changes.join(""), "A"]);
  });

  it("are answered in turn, and the page does it alone where no worker starts or it breaks", async () => {
    const finder = finderWith(new FalseWorker());
    const answers = await Promise.all([62, 64, 67].map((midi) => finder.bench(question({ midis: [midi] }))));
    expect(answers.map(({ places }) => places[0]!.notesMidi[0])).toEqual([62, 64, 67]);
    const none = new PlaceFinder(() => {
      throw new Error("no workers here");
    });
    expect(await none.bench(question())).toEqual(answerBench(question()));
    const breaking = new FalseWorker(true);
    const broken = finderWith(breaking);
    const asked = broken.bench(question());
    breaking.onerror?.();
    expect(await asked).toEqual(answerBench(question()));
  });

  it("are let go where they are wanted no more, and say in words what went wrong", async () => {
    const stop = new AbortController();
    const asked = finderWith(new FalseWorker()).bench(question(), stop.signal);
    stop.abort();
    await expect(asked).rejects.toThrow();
    const bad = question({
      changes: [
        { ...event(19), label: "what", guesses: [], stretch: 0, writtenStartSec: 19, endSec: 25 },
      ] as unknown as BenchQuestion["changes"],
    });
    await expect(finderWith(new FalseWorker()).bench(bad)).rejects.toThrow(
      /Places could not be found \(.+\)/,
    );
  });

  it("stop being laid out on request, and the bench is answered all the same", async () => {
    const [deaf, second] = [new FalseWorker(true), new FalseWorker()];
    const finder = finderWith(deaf, second);
    const laid = finder.passage(passage);
    const bench = finder.bench(question());
    expect(finder.isLaying).toBe(true);
    expect(finder.cancel()).toBe(true);
    expect(await laid).toBeNull();
    expect(deaf.isEnded).toBe(true);
    expect((await bench).places.length).toBeGreaterThan(0);
    expect(finder.cancel()).toBe(false);
    expect((await finder.passage(passage))!.ways.length).toBeGreaterThan(0);
  });

  it("are ended with the page that asked, and found for the next", async () => {
    const [deaf, second] = [new FalseWorker(true), new FalseWorker()];
    const finder = finderWith(deaf, second);
    const left = new AbortController();
    const laid = finder.passage(passage);
    const bench = finder.bench(question(), left.signal);
    finder.end();
    left.abort();
    expect(await laid).toBeNull();
    await expect(bench).rejects.toBe(left.signal.reason);
    expect([deaf.isEnded, finder.isLaying]).toEqual([true, false]);
    expect((await finder.passage(passage))!.ways.length).toBeGreaterThan(0);
  });
});

describe("locks on the bench", () => {
  const held: HeldLocks = {
    strings: [{ midi: 62, string: 5 }],
    frets: { from: 3, to: 8 },
    pedals: "up",
    changes: null,
    grip: [3, 4, 5, 6, 8],
    slants: false,
  };

  it("leave just the places that keep them, or say which leaves none", () => {
    const locks = placeLocksOf({ ...NOTHING_HELD, strings: held.strings, frets: held.frets });
    const { places } = answerBench(question({ locks }));
    expect(places.length).toBeGreaterThan(0);
    for (const { strings, fret } of places) {
      expect(strings[0]).toBe(5);
      expect(fret >= 3 && fret <= 8).toBe(true);
    }
    const none = answerBench(question({ locks: { fret: 1 } }));
    expect(none.places).toEqual([]);
    expect(none.whyNone?.words).toMatch(/^Locked: the bar at fret 1\./);
  });

  it("let the bar be slanted where that is asked for, and only there", () => {
    // Strings 4 and 5 are a fourth apart, so a major third lies there with string 5 one fret above string 4.
    const pair = { midis: [62, 66], count: 99 };
    const isSlanted = ({ frets }: { frets?: readonly number[] | null }) => Boolean(frets);
    expect(answerBench(question(pair)).places.some(isSlanted)).toBe(false);
    expect(answerBench(question({ ...pair, slants: true })).places.some(isSlanted)).toBe(true);
    expect(lockTags({ ...NOTHING_HELD, slants: true }, E9)[0]!.words).toBe("bar may slant");
  });

  it("stand in words, each to be let off", () => {
    const tags = lockTags(held, E9);
    expect(tags.map(({ words }) => words)).toEqual([
      "D4 on string 5",
      "frets 3 to 8",
      "pedals up",
      "strings 3, 4, 5, 6, 8 alone",
    ]);
    for (const { without } of tags) expect(lockTags(without, E9)).toHaveLength(tags.length - 1);
    expect(lockTags({ ...NOTHING_HELD, changes: [] }, E9)[0]!.words).toBe("nothing pressed");
    expect(lockTags({ ...NOTHING_HELD, frets: { from: 3, to: 3 } }, E9)[0]!.words).toBe("fret 3");
    const without9 = E9.strings.map(({ number }) => number).filter((number) => number !== 9);
    expect(lockTags({ ...NOTHING_HELD, grip: without9 }, E9)[0]!.words).toBe("not string 9");
  });

  it("hold for a passage and for other notes but where they speak of single ones", () => {
    expect(partLocksOf(held)).toEqual({ frets: held.frets, pedals: "up", grip: held.grip });
    expect(withoutOwn({ ...held, changes: ["A"] })).toEqual({ ...held, strings: [] });
  });

  it("are let off on another song", () => {
    const store = new LockStore();
    let told = 0;
    const unwatch = store.watch(() => (told += 1));
    store.begin("one");
    store.hold(held);
    store.begin("one");
    expect(store.now().held).toBe(held);
    store.begin("two");
    expect(store.now().held).toBe(NOTHING_HELD);
    expect(told).toBe(2);
    unwatch();
  });

  it("that hold for single notes alone end with these", () => {
    const store = new LockStore();
    store.turnTo("a G");
    store.hold(held);
    store.turnTo("a G");
    expect(store.now().held).toBe(held);
    store.turnTo("an A");
    expect(store.now().held).toEqual({ ...held, strings: [], changes: null });
    store.hold(held);
    store.turnTo(null);
    expect(store.now().held.strings).toEqual([]);
  });
});
