import { readFile, rm } from "node:fs/promises";
import path from "node:path";
import { z } from "zod";
import { runTool } from "./command";
import { firstLine, type Suite, type Tally } from "./Suite";

// The part of vitest's JSON report (Jest's format) that is counted.
const reportSchema = z.object({
  success: z.boolean(),
  numPassedTests: z.number(),
  numFailedTests: z.number(),
  numPendingTests: z.number(),
  numTodoTests: z.number().default(0),
  numFailedTestSuites: z.number(),
  testResults: z.array(
    z.object({
      name: z.string(),
      status: z.string(),
      message: z.string().default(""),
      assertionResults: z.array(
        z.object({
          fullName: z.string(),
          status: z.string(),
          failureMessages: z.array(z.string()).nullish(),
        }),
      ),
    }),
  ),
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
      if (text === null)
        return { passed: 0, failed: 1, skipped: 0, faults: [`vitest ended with ${code} and left no report`] };
      const report = reportSchema.parse(JSON.parse(text));
      let failed = report.numFailedTests;
      // Exit code or suite failures without a failed test: a file that did not load, an error outside a test.
      if (failed === 0 && (code !== 0 || !report.success || report.numFailedTestSuites > 0)) failed = 1;
      const faults = faultsOf(report);
      if (failed > 0 && faults.length === 0) faults.push(`an error outside of every test (exit ${code})`);
      const skipped = report.numPendingTests + report.numTodoTests;
      return { passed: report.numPassedTests, failed, skipped, faults };
    },
  };
}

function faultsOf({ testResults }: z.infer<typeof reportSchema>): string[] {
  return testResults.flatMap(({ name, status, message, assertionResults }) => {
    const file = path.relative(process.cwd(), name);
    const failed = assertionResults.filter((result) => result.status === "failed");
    if (status === "failed" && failed.length === 0) return [`${file}: ${firstLine(message)}`];
    return failed.map(
      ({ fullName, failureMessages }) => `${file}: ${fullName}: ${firstLine(failureMessages?.[0] ?? "")}`,
    );
  });
}
