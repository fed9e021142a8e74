/**
 * `npm test`: every suite, one after another, and one closing line `N passed, N failed` (`, N skipped` where
 * something was skipped). A suite that cannot run counts as failed; nothing is left out in silence.
 *
 * `npm test -- unit e2e` runs only the suites named.
 */

import { browserSuite } from "./suites/browser";
import { commandSuite } from "./suites/command";
import { qualitySuite } from "./suites/quality";
import { addTallies, type Suite, type Tally } from "./suites/Suite";
import { vitestSuite } from "./suites/vitest";

const suites: Suite[] = [
  commandSuite("types", "tsc", ["--noEmit"]),
  commandSuite("lint", "biome", ["check", "."]),
  vitestSuite("unit"),
  vitestSuite("integration"),
  qualitySuite(),
  browserSuite(),
];

async function main(): Promise<number> {
  const wanted = process.argv.slice(2);
  const unknown = wanted.filter((name) => !suites.some((suite) => suite.name === name));
  if (unknown.length > 0) {
    console.error(
      `No suite named ${unknown.join(", ")}. There are: ${suites.map((s) => s.name).join(", ")}.`,
    );
    return 2;
  }
  const generated = await commandSuite("generate", "tsx", ["lib/cli/start/generate.ts"]).run();
  if (generated.failed > 0) return 1;
  let total: Tally = { passed: 0, failed: 0, skipped: 0, faults: [] };
  for (const suite of suites) {
    if (wanted.length > 0 && !wanted.includes(suite.name)) continue;
    console.log(`\n== ${suite.name}`);
    const startedMs = Date.now();
    const tally = await suite.run();
    const seconds = ((Date.now() - startedMs) / 1000).toFixed(1);
    console.log(
      `== ${suite.name}: ${tally.passed} passed, ${tally.failed} failed, ${tally.skipped} skipped (${seconds} s)`,
    );
    total = addTallies(total, tally);
  }
  const skipped = total.skipped > 0 ? `, ${total.skipped} skipped` : "";
  for (const fault of total.faults) console.log(`failed: ${fault}`);
  console.log(`\n${total.passed} passed, ${total.failed} failed${skipped}`);
  return total.failed > 0 || total.passed === 0 ? 1 : 0;
}

process.exitCode = await main();
