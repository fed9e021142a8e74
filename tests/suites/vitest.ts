import { readFile, rm } from "node:fs/promises";
import path from "node:path";
import { z } from "zod";
import { runTool } from "./command";
import type { Suite, Tally } from "./Suite";

// The part of vitest's JSON report (Jest's format) that is counted.
const reportSchema = z.object({
  success: z.boolean(),
  numPassedTests: z.number(),
  numFailedTests: z.number(),
  numPendingTests: z.number(),
  numTodoTests: z.number().default(0),
  numFailedTestSuites: z.number(),
});

/** One project of vitest.config.ts. A file that fails to load counts as one failure. */
export function vitestSuite(project: "unit" | "integration"): Suite {
  return {
    name: project,
    async run(): Promise<Tally> {
      const file = path.resolve(`tests/.output/${project}.json`);
      await rm(file, { force: true });
      const code = await runTool("vitest", [
        "run",
        "--project",
        project,
        "--reporter=default",
        "--reporter=json",
        `--outputFile.json=${file}`,
      ]);
      const text = await readFile(file, "utf8").catch(() => null);
      if (text === null) return { passed: 0, failed: 1, skipped: 0 };
      const report = reportSchema.parse(JSON.parse(text));
      let failed = report.numFailedTests;
      // Exit code or suite failures without a failed test: a file that did not load, an error outside a test.
      if (failed === 0 && (code !== 0 || !report.success || report.numFailedTestSuites > 0)) failed = 1;
      return { passed: report.numPassedTests, failed, skipped: report.numPendingTests + report.numTodoTests };
    },
  };
}
