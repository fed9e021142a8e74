import { describe, expect, it } from "vitest";
import { PlaceFinder } from "@/lib/client/places/PlaceFinder";
import { PlacesAnswerer } from "@/lib/client/places/PlacesAnswerer";
import type { PlacesMessage, PlacesWord } from "@/lib/client/places/placesMessages";
import { carryOver, type PartToMove } from "@/lib/client/song/carryOver";
import { partOnGuitar } from "@/lib/client/song/partOnGuitar";
import { placeAnew } from "@/lib/client/song/placeAnew";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { findCopedent } from "@/lib/instrument/copedentCatalog";
import { E9, E9_SMALL } from "@/lib/instrument/copedents/e9";
import { C_MAJOR } from "@/lib/theory/key";

const event = (at: number, changed: Partial<ShownPart>): ShownPart => ({
  ...{ id: `e${at}`, mark: "ink", madeBy: "ann", madeAtMs: 0, editedBy: "ann", editedAtMs: 0 },
  ...{ part: "part", confidence: null, startSec: at, endSec: at + 1, writtenEndSec: at + 1 },
  ...{ strings: [5, 6], writtenStrings: [5, 6], fret: 3, frets: null, changes: [], articulation: "pick" },
  ...changed,
});
/** Every third event is played with a lever that the small guitar lacks. */
const PART = Array.from({ length: 60 }, (_, at) =>
  event(at, at % 3 === 0 ? { changes: ["V"] } : { fret: 3 + (at % 5) }),
);
const asked: PartToMove = { part: PART, from: E9, to: E9_SMALL, key: C_MAJOR, changes: [] };

/** Stands for the worker: says what the body of placesWorker.ts says; messages are copied as between threads. */
class FalseWorker {
  onmessage: ((message: { data: PlacesWord }) => void) | null = null;
  onerror: (() => void) | null = null;
  isEnded = false;
  readonly got: PlacesMessage["kind"][] = [];
  private readonly answerer = new PlacesAnswerer();

  constructor(private readonly isDeaf = false) {}

  postMessage(message: PlacesMessage) {
    this.got.push(message.kind);
    const copy = structuredClone(message);
    if (copy.kind === "warm") return;
    setTimeout(() => {
      if (this.isDeaf) return;
      const say = (word: PlacesWord) => {
        if (!this.isEnded) this.onmessage?.({ data: structuredClone(word) });
      };
      say(this.answerer.answer(copy, (fraction) => say({ kind: "progress", fraction })));
    });
  }

  terminate() {
    this.isEnded = true;
  }
}
const finderWith = (...workers: FalseWorker[]) => new PlaceFinder(() => workers.shift() as unknown as Worker);

describe("a part that goes to another guitar, off the page's thread", () => {
  it("comes there as it would on the page, by effect where it can, and tells how far it is", async () => {
    const told: number[] = [];
    const carried = await finderWith(new FalseWorker()).carry(asked, (fraction) => told.push(fraction));
    expect(carried).toEqual(carryOver(asked));
    expect([carried!.byEffectCount, carried!.placedAnewCount, carried!.leftCount]).toEqual([40, 20, 0]);
    expect(told.length).toBeGreaterThan(10);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    expect(told.every((fraction) => fraction > 0 && fraction <= 1)).toBe(true);
    expect(told.at(-1)).toBeGreaterThan(0.9);
  });

  it("has what cannot be carried placed anew, the same as on the page, under fingers too", async () => {
    for (const to of [E9_SMALL, findCopedent("guitar")!]) {
      const told: number[] = [];
      const found = await finderWith(new FalseWorker()).anew({ ...asked, to }, (fraction) =>
        told.push(fraction),
      );
      const read = partOnGuitar(PART, E9, to);
      expect(found).toEqual(placeAnew(read, E9, to, { key: C_MAJOR, changes: [] }));
      expect(found!.size).toBeGreaterThan(0);
      expect(told.length).toBeGreaterThan(10);
    }
  });

  it("stops on request, and nothing comes of it", async () => {
    const [deaf, second] = [new FalseWorker(true), new FalseWorker()];
    const finder = finderWith(deaf, second);
    const told: number[] = [];
    const carried = finder.carry(asked, (fraction) => told.push(fraction));
    expect(finder.isLaying).toBe(true);
    expect(finder.cancel()).toBe(true);
    expect(await carried).toBeNull();
    expect([deaf.isEnded, finder.isLaying, told.length]).toEqual([true, false, 0]);
    expect((await finder.anew(asked))!.size).toBe(20);
  });

  it("says in words what went wrong", async () => {
    const bad = {
      ...asked,
      changes: [{ ...event(0, {}), label: "what" }] as unknown as PartToMove["changes"],
    };
    await expect(finderWith(new FalseWorker()).carry(bad)).rejects.toThrow(
      /Places could not be found \(.+\)/,
    );
  });
});

describe("a worker that is to be warm", () => {
  it("is started before anything is asked, told once of a guitar, and again where it had to be ended", async () => {
    const [first, second] = [new FalseWorker(), new FalseWorker()];
    const finder = finderWith(first, second);
    finder.warm(E9);
    finder.warm(structuredClone(E9));
    expect(first.got).toEqual(["warm"]);
    finder.warm(E9_SMALL);
    expect(first.got).toEqual(["warm", "warm"]);
    const carried = finder.carry(asked);
    finder.cancel();
    expect(await carried).toBeNull();
    expect(second.got).toEqual(["warm"]);
  });

  it("lays out parts of its own in rounds, on any guitar, and answers the same afterwards", () => {
    for (const id of ["e9", "lap-c6", "guitar", "banjo"]) {
      const answerer = new PlacesAnswerer();
      const rounds = answerer.warmUp(findCopedent(id)!);
      let count = 0;
      while (!rounds.next().done) count += 1;
      expect(count).toBeGreaterThan(3);
    }
    const warm = new PlacesAnswerer();
    const rounds = warm.warmUp(E9_SMALL);
    while (!rounds.next().done);
    expect(warm.answer({ kind: "carry", question: asked })).toEqual({
      kind: "carry",
      answer: carryOver(asked),
    });
  });
});
