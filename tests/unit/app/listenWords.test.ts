import { describe, expect, it } from "vitest";
import { balanceWords, listenWords, togetherWords } from "@/app/songs/[songId]/parts/listenWords";
import { soundName } from "@/lib/client/song/partAtHand";
import { findCopedent } from "@/lib/instrument/copedentCatalog";

const from = { kind: "preset", id: "e9" } as const;
const part = (id: string, name: string, guitar: string) => ({
  ...{ id, name, head: { from, copedent: findCopedent(guitar)! } },
});

describe("what a part is heard as", () => {
  it("is its name, else its instrument, any steel simply so", () => {
    const parts = [part("part", "", "e9"), part("2", "Fiddle", "mandolin"), part("3", "", "banjo")];
    expect(parts.map(({ id }) => soundName(parts, id))).toEqual(["steel", "Fiddle", "Five-string banjo"]);
  });

  it("is its place where two would be called alike", () => {
    const parts = [part("part", "", "e9"), part("2", "", "c6"), part("3", "Fiddle", "mandolin")];
    expect(parts.map(({ id }) => soundName(parts, id))).toEqual(["Part", "Part 2", "Fiddle"]);
  });
});

describe("what one listens to, in words", () => {
  it("names the part in hand, and those that sound with it", () => {
    expect(listenWords("record", "steel", ["Fiddle"])).toBe("the record alone");
    expect(listenWords("both", "steel")).toBe("record left, steel right");
    expect(listenWords("both", "Fiddle", ["steel", "Bass"])).toBe(
      "record left, Fiddle, the steel and Bass right",
    );
    expect(listenWords("parts", "Fiddle")).toBe("Fiddle alone, in the record's time");
    expect(listenWords("parts", "steel", ["Fiddle"])).toBe("the steel and Fiddle, in the record's time");
    expect(togetherWords("Fiddle", [])).toBe("Fiddle alone");
  });

  it("weighs the part in hand against the record", () => {
    expect(balanceWords(0, "Fiddle")).toBe("Record and Fiddle alike.");
    expect(balanceWords(-0.25, "steel")).toMatch(/^Record whole, steel 75.%\.$/);
    expect(balanceWords(0.5, "steel")).toMatch(/^Steel whole, record 50.%\.$/);
  });
});
