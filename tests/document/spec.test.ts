import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

const SPEC = new URL("../../lib/document/SPEC.md", import.meta.url);
const TESTS = new URL("./", import.meta.url);

describe("the spec page", () => {
  const page = readFileSync(SPEC, "utf8");
  const rules = [...page.matchAll(/^\*\*D(\d+)\*\*/gm)].map((match) => Number(match[1]));
  const tests = readdirSync(TESTS)
    .filter((name) => name.endsWith(".test.ts") && name !== "spec.test.ts")
    .map((name) => readFileSync(new URL(name, TESTS), "utf8"))
    .join("\n");

  it("numbers its rules in order", () => {
    expect(rules.length).toBeGreaterThan(10);
    expect(rules).toEqual([...new Set(rules)].sort((a, b) => a - b));
  });

  it.each(rules)("D%d is tested by name", (rule) => {
    expect(tests).toMatch(new RegExp(`"D${rule}: `));
  });

  it("no test cites a rule that is not there", () => {
    const cited = new Set([...tests.matchAll(/\bD(\d+): /g)].map((match) => Number(match[1])));
    expect([...cited].filter((rule) => !rules.includes(rule))).toEqual([]);
  });
});
