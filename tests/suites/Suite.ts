/** How many checks of a suite held. */
export interface Tally {
  passed: number;
  failed: number;
  skipped: number;
  /** What failed, a line each: the test's name and the first line of why. Told again at the end of a long run. */
  faults: string[];
}

/** One part of `npm test`. */
export interface Suite {
  name: string;
  /** Runs it, printing as it goes. Never rejects: what cannot run counts as failed. */
  run(): Promise<Tally>;
}

export function addTallies(a: Tally, b: Tally): Tally {
  return {
    passed: a.passed + b.passed,
    failed: a.failed + b.failed,
    skipped: a.skipped + b.skipped,
    faults: [...a.faults, ...b.faults],
  };
}

export function firstLine(text: string): string {
  return text.trim().split("\n", 1)[0] ?? "";
}
