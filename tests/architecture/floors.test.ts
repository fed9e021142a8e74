import { readdirSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { cruise, type ICruiseOptions, type ICruiseResult } from "dependency-cruiser";
import extractTSConfig from "dependency-cruiser/config-utl/extract-ts-config";
import { describe, expect, it } from "vitest";

const root = path.resolve(import.meta.dirname, "../..");

/** The rooms of the plan; a new one is a decision, written down in DEVELOPERS.md first. */
const ROOMS = [
  "cli",
  "client",
  "contracts",
  "document",
  "dsp",
  "hearing",
  "instrument",
  "lesson",
  "notation",
  "places",
  "scoring",
  "fit",
  "server",
  "synth",
  "theory",
  "units",
];

const FORBIDDEN_NAMES = /^(utils?|helpers?|common|misc|shared|index)(\.tsx?)?$/;

function sourceFiles(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const full = path.join(folder, name);
    if (statSync(full).isDirectory()) return name === "generated" ? [] : sourceFiles(full);
    return /\.tsx?$/.test(name) ? [path.relative(root, full)] : [];
  });
}

describe("the floors of the house", () => {
  it("has only the rooms of the plan", () => {
    const found = readdirSync(path.join(root, "lib")).sort();
    expect(found.filter((room) => !ROOMS.includes(room))).toEqual([]);
  });

  it("has no dumping grounds and no barrels", () => {
    const files = [...sourceFiles(path.join(root, "lib")), ...sourceFiles(path.join(root, "app"))];
    const bad = files.filter((file) => file.split(path.sep).some((part) => FORBIDDEN_NAMES.test(part)));
    expect(bad).toEqual([]);
  });

  it("keeps every dependency rule, over every module of lib and app", async () => {
    const { forbidden, options } = createRequire(import.meta.url)("../../.dependency-cruiser.cjs");
    const tsConfig = extractTSConfig(path.join(root, "tsconfig.json"));
    const cruised = await cruise(
      ["lib", "app"],
      { ...(options as ICruiseOptions), baseDir: root, ruleSet: { forbidden }, validate: true },
      undefined,
      { tsConfig },
    );
    const result = cruised.output as ICruiseResult;
    const seen = new Set(
      result.modules.map((module) => module.source).filter((source) => /^(lib|app)\/.*\.tsx?$/.test(source)),
    );
    // A cruiser that understands no TypeScript sees no module and complains of nothing: count them.
    const expected = [...sourceFiles(path.join(root, "lib")), ...sourceFiles(path.join(root, "app"))];
    expect(expected.length).toBeGreaterThan(100);
    expect(expected.filter((file) => !seen.has(file))).toEqual([]);
    const edges = result.modules.reduce((count, module) => count + module.dependencies.length, 0);
    expect(edges).toBeGreaterThan(expected.length);
    const broken = result.summary.violations.map((v) => `${v.rule.name}: ${v.from} -> ${v.to}`);
    expect(broken).toEqual([]);
  }, 120_000);

  it("really catches an import that goes up", async () => {
    const { forbidden } = createRequire(import.meta.url)("../../.dependency-cruiser.cjs") as {
      forbidden: { name: string; from: { path?: string }; to: { path?: string; pathNot?: string } }[];
    };
    const rule = forbidden.find((candidate) => candidate.name === "floor-theory");
    expect(rule).toBeDefined();
    const forbids = (from: string, to: string) =>
      new RegExp(rule?.from.path ?? "$^").test(from) &&
      new RegExp(rule?.to.path ?? "$^").test(to) &&
      !new RegExp(rule?.to.pathNot ?? "$^").test(to);
    expect(forbids("lib/theory/key.ts", "lib/server/house.ts")).toBe(true);
    expect(forbids("lib/theory/key.ts", "lib/hearing/Hearing.ts")).toBe(true);
    expect(forbids("lib/theory/key.ts", "lib/units/pitch.ts")).toBe(false);
    expect(forbids("lib/theory/key.ts", "lib/theory/spelling.ts")).toBe(false);
  });
});
