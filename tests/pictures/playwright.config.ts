import { defineConfig } from "@playwright/test";
import browserTests from "../e2e/playwright.config";

/** Pictures of every page (`npm run -s pictures`), apart from the browser tests: they are looked at, not compared. */
export default defineConfig({
  ...browserTests,
  testDir: ".",
  globalSetup: "../e2e/buildOnce.ts",
  outputDir: "../.output/pictures-run",
  reporter: [["list"]],
});
