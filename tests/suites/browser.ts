import { readFile, rm } from "node:fs/promises";
import path from "node:path";
import { z } from "zod";
import { runTool } from "./command";
import { firstLine, type Suite, type Tally } from "./Suite";

// The part of Playwright's JSON report that is counted.
const specSchema = z.object({
  title: z.string(),
  file: z.string(),
  line: z.number(),
  ok: z.boolean(),
  tests: z.array(
    z.object({
      results: z.array(z.object({ error: z.object({ message: z.string().default("") }).optional() })),
    }),
  ),
});
interface SuiteReport {
  specs?: z.infer<typeof specSchema>[] | undefined;
  suites?: SuiteReport[] | undefined;
}
const suiteSchema: z.ZodType<SuiteReport> = z.lazy(() =>
  z.object({ specs: z.array(specSchema).optional(), suites: z.array(suiteSchema).optional() }),
);
const reportSchema = z.object({
  suites: z.array(suiteSchema),
  stats: z.object({ expected: z.number(), unexpected: z.number(), flaky: z.number(), skipped: z.number() }),
  errors: z.array(z.object({ message: z.string().default("") })),
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
      if (text === null) return { passed: 0, failed: 1, skipped: 0, faults: ["playwright left no report"] };
      const { stats, errors, suites } = reportSchema.parse(JSON.parse(text));
      const failed = stats.unexpected + (stats.unexpected === 0 ? errors.length : 0);
      const faults = [...suites.flatMap(faultsOf), ...errors.map(({ message }) => firstLine(message))];
      return { passed: stats.expected + stats.flaky, failed, skipped: stats.skipped, faults };
    },
  };
}

function faultsOf({ specs = [], suites = [] }: SuiteReport): string[] {
  const own = specs
    .filter(({ ok }) => !ok)
    .map(({ file, line, title, tests }) => {
      const error = tests.flatMap(({ results }) => results).find((result) => result.error)?.error;
      return `${file}:${line} ${title}: ${firstLine(error?.message ?? "")}`;
    });
  return [...own, ...suites.flatMap(faultsOf)];
}
