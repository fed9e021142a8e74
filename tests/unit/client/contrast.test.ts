import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

/** Contrast as WCAG 2.2 reckons it (w3.org/TR/WCAG22, "relative luminance" and "contrast ratio"). */
function contrast(one: string, other: string): number {
  const [bright, dim] = [luminance(one), luminance(other)].sort((a, b) => b - a) as [number, number];
  return (bright + 0.05) / (dim + 0.05);
}

function luminance(hex: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

const css = readFileSync(new URL("../../../app/tokens.css", import.meta.url), "utf8");
const tokens = new Map(
  [...css.matchAll(/--([\w-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)/g)].map((found) => [
    found[1]!,
    { paper: found[2]!, stage: found[3]! },
  ]),
);

const GROUNDS = ["paper", "leaf", "well", "sheet"];
/** Writing and the ground it stands on: 4.5:1 (success criterion 1.4.3). */
const TEXT: [string, string[]][] = [
  ["ink", [...GROUNDS, "pencil-ground", "here-ground", "fault-ground"]],
  ["second-ink", [...GROUNDS, "pencil-ground", "here-ground"]],
  ["verdigris", ["paper", "leaf", "sheet"]],
  ["oxide", ["paper", "leaf", "sheet"]],
  ["indigo", ["paper", "sheet"]],
  ["brass", ["paper", "sheet", "leaf"]],
  ["on-verdigris", ["verdigris"]],
  ["on-indigo", ["indigo"]],
  ["paper", ["ink"]],
];
/** Drawn marks and large figures (the pencilled number): 3:1 (1.4.3 for large text, 1.4.11). */
const MARKS: [string, string[]][] = [
  ["pencil", ["pencil-ground", "paper", "leaf"]],
  ["edge", ["paper", "sheet", "leaf"]],
  ["string", ["paper"]],
  ["wave", ["paper"]],
  ["wave-strip", ["leaf"]],
  ["oxide", ["paper", "leaf"]],
  ["verdigris", ["well", "paper"]],
];

describe.each(["paper", "stage"] as const)("contrast of the %s theme", (theme) => {
  const pairs = (list: [string, string[]][], least: number) =>
    list.flatMap(([front, grounds]) => grounds.map((ground) => ({ front, ground, least })));

  it.each([...pairs(TEXT, 4.5), ...pairs(MARKS, 3)])(
    "$front on $ground reaches $least",
    ({ front, ground, least }) => {
      const frontHex = tokens.get(front)?.[theme];
      const groundHex = tokens.get(ground)?.[theme];
      expect(frontHex && groundHex).toBeTruthy();
      expect(contrast(frontHex!, groundHex!)).toBeGreaterThanOrEqual(least);
    },
  );
});
