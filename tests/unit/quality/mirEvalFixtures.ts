import { readFileSync } from "node:fs";
import path from "node:path";

/**
 * Reference, estimate and stored scores from the tests of mir_eval (C. Raffel et al., "mir_eval: a transparent
 * implementation of common MIR metrics", ISMIR 2014; github.com/mir-evaluation/mir_eval, MIT): ten of each task.
 */
const FOLDER = path.resolve("tests/fixtures/mir_eval");

export const FIXTURES = Array.from({ length: 10 }, (_, index) => String(index).padStart(2, "0"));

/** The columns of each line; comments and empty lines are left out. */
export function readColumns(file: string): string[][] {
  return readFileSync(path.join(FOLDER, file), "utf8")
    .split("\n")
    .filter((line) => line.trim() !== "" && !line.startsWith("#"))
    .map((line) => line.trim().split(/\s+/));
}

export function readScores(file: string): Record<string, number> {
  return JSON.parse(readFileSync(path.join(FOLDER, file), "utf8")) as Record<string, number>;
}
