import { availableParallelism } from "node:os";
import { defineConfig } from "@playwright/test";

/** Tests of what is heard: where a machine is short of time, sound breaks off. */
const SOUND = /(listening|transport|hearInRecord|tryPlaces|playIn|takes)\.spec\.ts$/;

export default defineConfig({
  testDir: ".",
  outputDir: "../.output/e2e",
  globalSetup: "./buildOnce.ts",
  timeout: 240_000,
  expect: { timeout: 30_000 },
  fullyParallel: false,
  workers: Math.min(2, availableParallelism()),
  projects: [
    // Two at a time, each with a server of its own: much of a test is waiting.
    { name: "pages", testIgnore: SOUND },
    { name: "sound", testMatch: SOUND, workers: 1, dependencies: ["pages"] },
  ],
  retries: 0,
  reporter: [["list"], ["json"]],
  use: {
    actionTimeout: 30_000,
    navigationTimeout: 40_000,
    // A trace copies the whole page at every act, which takes longer than the acts: only where somebody looks for a fault.
    trace: process.env.LIFTBOOK_TRACE ? "retain-on-failure" : "off",
    screenshot: "only-on-failure",
    locale: "en-GB",
    timezoneId: "UTC",
    serviceWorkers: "block",
  },
});
