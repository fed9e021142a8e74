import { describe, expect, it } from "vitest";
import { heardBeside, KeptParts } from "@/lib/client/lanes/KeptParts";
import { heldWords, partName, partOf, withPartAtHand } from "@/lib/client/song/partAtHand";
import { addPartEvents } from "@/lib/document/commands/part";
import { addPart } from "@/lib/document/commands/parts";
import { readSong } from "@/lib/document/read/readSong";
import { done, replica } from "../../document/replicas";

const WHOSE = { userId: "ann", songId: "s1" };

function memory(): Pick<Storage, "getItem" | "setItem"> & { all: Map<string, string> } {
  const all = new Map<string, string>();
  return { all, getItem: (key) => all.get(key) ?? null, setItem: (key, value) => void all.set(key, value) };
}

/** A song with a fiddle beside the first part, and two events in it, one in pencil. */
function withFiddle() {
  const ann = replica("ann", 1);
  const [id] = done(
    addPart(ann.ctx, {
      ...{ name: "", from: { kind: "own", id: "fifths", ownerId: "ann" } },
      chart: { name: "Fifths", strings: [76, 69, 62, 55] },
    }),
  );
  const event = { strings: [1], fret: 3, changes: [], articulation: "pick" as const };
  done(addPartEvents(ann.ctx, [{ ...event, startSec: 1, endSec: 2 }], "ink", [], id));
  done(addPartEvents(ann.ctx, [{ ...event, startSec: 3, endSec: 4 }], "pencil", [], id));
  return { song: readSong(ann.doc), id: id! };
}

describe("parts as this browser keeps them", () => {
  it("keep which is in hand and which are folded, for each person and song", () => {
    const store = memory();
    const kept = new KeptParts(WHOSE, store);
    expect(kept.now()).toMatchObject({ atHand: null, folded: [] });
    kept.take("fiddle");
    kept.toggle("fiddle");
    kept.toggle("bass");
    kept.toggle("bass");
    expect(new KeptParts(WHOSE, store).now()).toMatchObject({ atHand: "fiddle", folded: ["fiddle"] });
    expect(new KeptParts({ ...WHOSE, songId: "s2" }, store).now()).toMatchObject({
      atHand: null,
      folded: [],
    });
    kept.open("fiddle");
    kept.open("bass");
    expect(new KeptParts(WHOSE, store).now().folded).toEqual([]);
  });

  it("keep which are heard beside the one in hand, and how loud; hearing it alone forgets none", () => {
    const store = memory();
    const parts = ["part", "fiddle", "bass"].map((id) => ({ id }));
    const beside = (kept: KeptParts, atHand: string) =>
      heardBeside(parts, atHand, kept.now()).map(({ id }) => id);
    const kept = new KeptParts(WHOSE, store);
    expect(beside(kept, "part")).toEqual([]);
    kept.switchSound("fiddle");
    kept.switchSound("bass");
    kept.setLevel("fiddle", 0.4);
    kept.setLevel("bass", 0.5);
    kept.setLevel("bass", 1);
    expect(beside(kept, "part")).toEqual(["fiddle", "bass"]);
    expect(beside(kept, "bass")).toEqual(["fiddle"]);
    kept.hearAlone(true);
    expect(beside(kept, "part")).toEqual([]);
    const again = new KeptParts(WHOSE, store);
    expect(again.now()).toMatchObject({ isAlone: true, levels: { fiddle: 0.4 } });
    // Who asks for one of them hears it, and does not silence it unseen.
    again.switchSound("fiddle");
    expect(beside(again, "part")).toEqual(["fiddle", "bass"]);
    again.switchSound("fiddle");
    expect(beside(again, "part")).toEqual(["bass"]);
    again.sound(["fiddle"]);
    expect(beside(again, "part")).toEqual(["fiddle"]);
  });

  it("leave out levels that are none", () => {
    const store = memory();
    store.setItem(
      "liftbook.parts.ann.s1",
      '{"levels":{"a":2,"b":"x","c":0.5},"sounding":[1,"c"],"isAlone":1}',
    );
    expect(new KeptParts(WHOSE, store).now()).toMatchObject({
      ...{ levels: { c: 0.5 }, sounding: ["c"], isAlone: false },
    });
  });

  it.each(["no text of ours", "7", '{"atHand":5,"folded":"x"}', '{"folded":[1,"a"]}'])(
    "take %s for nothing, as far as it cannot be read",
    (text) => {
      const store = memory();
      store.setItem("liftbook.parts.ann.s1", text);
      const { atHand, folded } = new KeptParts(WHOSE, store).now();
      expect(atHand).toBeNull();
      expect(folded).toEqual(text.includes('"a"') ? ["a"] : []);
    },
  );

  it("go on where the browser keeps nothing", () => {
    const refuse = () => {
      throw new Error("full");
    };
    const kept = new KeptParts(WHOSE, { getItem: refuse, setItem: refuse });
    kept.take("fiddle");
    expect(kept.now().atHand).toBe("fiddle");
  });
});

describe("the part at hand", () => {
  it("stands as the song's part, with its head; without one, and where it is gone, the first", () => {
    const { song, id } = withFiddle();
    const ofFiddle = withPartAtHand(song, id);
    expect(ofFiddle.part).toBe(song.parts[1]!.events);
    expect(ofFiddle.head.copedent.name).toBe("Fifths");
    expect(ofFiddle.parts).toBe(song.parts);
    expect(withPartAtHand(song, null)).toBe(song);
    expect(withPartAtHand(song, "gone")).toBe(song);
    expect(partOf(song.parts, "gone").id).toBe("part");
  });

  it("is called by its name, else by its place; what it holds is told in words", () => {
    const { song, id } = withFiddle();
    expect([partName(song.parts, "part"), partName(song.parts, id)]).toEqual(["Part", "Part 2"]);
    expect(partName([{ id: "part", name: "Steel" }], "part")).toBe("Steel");
    expect(song.parts.map(heldWords)).toEqual(["nothing written yet", "2 events, 1 in pencil"]);
    const [inked, guess] = song.parts[1]!.events;
    expect(heldWords({ events: [inked!] })).toBe("1 event");
    expect(heldWords({ events: [guess!] })).toBe("1 event in pencil");
  });
});
