/** How many checks of a suite held. */
export interface Tally {
  passed: number;
  failed: number;
  skipped: number;
}

/** One part of `npm test`. */
export interface Suite {
  name: string;
  /** Runs it, printing as it goes. Never rejects: what cannot run counts as failed. */
  run(): Promise<Tally>;
}

export function addTallies(a: Tally, b: Tally): Tally {
  return { passed: a.passed + b.passed, failed: a.failed + b.failed, skipped: a.skipped + b.skipped };
}
