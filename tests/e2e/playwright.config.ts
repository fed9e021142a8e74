import { defineConfig } from "@playwright/test";

export default defineConfig({
  testDir: ".",
  outputDir: "../.output/e2e",
  timeout: 180_000,
  expect: { timeout: 20_000 },
  fullyParallel: false,
  workers: 1,
  retries: 0,
  reporter: [["list"], ["json"]],
  use: {
    actionTimeout: 20_000,
    navigationTimeout: 40_000,
    trace: "retain-on-failure",
    locale: "en-GB",
    timezoneId: "UTC",
    serviceWorkers: "block",
  },
});
