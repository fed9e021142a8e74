import type { Suite, Tally } from "./Suite";

/** The ear against annotated recordings: the floors that every change must keep (tests/quality/check.ts). */
export function qualitySuite(): Suite {
  return {
    name: "quality",
    async run(): Promise<Tally> {
      try {
        const { checkQuality } = await import("../quality/check");
        const checks = await checkQuality();
        for (const check of checks)
          console.log(`${check.passed ? "held " : "FAILED"} ${check.name}: ${check.detail}`);
        const passed = checks.filter((check) => check.passed).length;
        if (checks.length === 0) throw new Error("no quality check ran");
        const faults = checks
          .filter((check) => !check.passed)
          .map(({ name, detail }) => `${name}: ${detail}`);
        return { passed, failed: faults.length, skipped: 0, faults };
      } catch (fault) {
        console.error(fault);
        return { passed: 0, failed: 1, skipped: 0, faults: [String(fault)] };
      }
    },
  };
}
