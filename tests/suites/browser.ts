import { readFile, rm } from "node:fs/promises";
import path from "node:path";
import { z } from "zod";
import { runTool } from "./command";
import type { Suite, Tally } from "./Suite";

// The part of Playwright's JSON report that is counted.
const reportSchema = z.object({
  stats: z.object({ expected: z.number(), unexpected: z.number(), flaky: z.number(), skipped: z.number() }),
  errors: z.array(z.unknown()),
});

/** The browser tests, against the server as `npm start` runs it. */
export function browserSuite(): Suite {
  return {
    name: "browser",
    async run(): Promise<Tally> {
      const file = path.resolve("tests/.output/browser.json");
      await rm(file, { force: true });
      await runTool("playwright", ["test", "--config", "tests/e2e/playwright.config.ts"], {
        PLAYWRIGHT_JSON_OUTPUT_FILE: file,
      });
      const text = await readFile(file, "utf8").catch(() => null);
      if (text === null) return { passed: 0, failed: 1, skipped: 0 };
      const { stats, errors } = reportSchema.parse(JSON.parse(text));
      const failed = stats.unexpected + (stats.unexpected === 0 ? errors.length : 0);
      return { passed: stats.expected + stats.flaky, failed, skipped: stats.skipped };
    },
  };
}
