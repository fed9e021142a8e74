import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

export default defineConfig({
  resolve: { alias: { "@": fileURLToPath(new URL(".", import.meta.url)).replace(/\/$/, "") } },
  test: {
    // One core fewer by default, which on two cores is one file at a time.
    maxWorkers: availableParallelism(),
    projects: [
      {
        extends: true,
        // No test is about time: a busy machine may take long over a thousand random cases.
        test: {
          name: "unit",
          testTimeout: 60_000,
          include: ["tests/{unit,document,architecture}/**/*.test.ts"],
        },
      },
      {
        extends: true,
        test: {
          name: "integration",
          include: ["tests/integration/**/*.test.ts"],
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
