import { describe, expect, it } from "vitest";
import { E9 } from "@/lib/instrument/copedents/e9";
import { numberChart } from "@/lib/notation/chart";
import { homeInForce, laterHomesToWords } from "@/lib/notation/laterHomes";
import { textTab } from "@/lib/notation/textTab";
import type { Key } from "@/lib/theory/key";
import { gridOf } from "./beats/anyGrid";

const G: Key = { tonic: "G", mode: "major" };
const later = [{ startSec: 4, key: { tonic: "A", mode: "major" } as Key }];
const grid = gridOf(4, 4, 4, 4);
const changes = ["G:maj", "D:maj", "A:maj", "E:maj"].map((label, bar) => ({
  startSec: bar * 2,
  endSec: bar * 2 + 2,
  label,
}));

describe("a home that changes on the way", () => {
  it("is in force from where it begins", () => {
    expect([0, 3.9, 3.96, 9].map((sec) => homeInForce(G, later, sec).tonic)).toEqual(["G", "G", "A", "A"]);
    expect(laterHomesToWords(later, grid)).toEqual(["A major from bar 3"]);
    expect(laterHomesToWords(later, null)).toEqual(["A major from 4.0 s"]);
  });

  it("is what the chart counts from, and the chart says so", () => {
    const chart = numberChart({ title: "Song", key: G, laterHomes: later, grid, changes });
    expect(chart).toContain("home G major, A major from bar 3");
    expect(chart).toMatch(/bar +1: +1 +5 +1 +5/);
  });

  it("is what the tab counts from too", () => {
    const part = [0, 2, 4, 6].map((startSec, index) => ({
      id: `${index}`,
      startSec,
      endSec: startSec + 1,
      strings: [4],
      fret: 3,
      frets: null,
      changes: [],
      articulation: "pick" as const,
      techniques: [],
    }));
    const tab = textTab({ title: "Song", copedent: E9, key: G, laterHomes: later, grid, changes, part });
    expect(tab).toContain("home G major, A major from bar 3");
    const rows = [...tab.matchAll(/^ *change (.*)$/gm)].map((row) => row[1]).join(" ");
    expect(rows.match(/\d/g)).toEqual(["1", "5", "1", "5"]);
  });
});
