import type { Seconds } from "@/lib/units/quantities";
import { SHORTEST_SEC } from "../records/guards";
import type { RecordBase, RecordKind, RecordKinds } from "../records/records";
import type { Registers } from "../records/registers";

type Flatten = {
  readonly [K in RecordKind]: (values: Registers[K]) => Omit<RecordKinds[K], keyof RecordBase>;
};

const FLATTEN: Flatten = {
  tuning: ({ tuningCents }) => ({ tuningCents }),
  grid: ({ beats }) => ({ ...beats }),
  home: ({ startSec, key }) => ({ startSec, ...key }),
  change: (values) => ({ ...values, ...inOrder(values) }),
  part: (values) => ({
    ...values,
    ...inOrder(values),
    strings: [...values.strings].sort((a, b) => a - b),
  }),
};

/** The record that its registers make, as readers get it. */
export function flatten<K extends RecordKind>(
  kind: K,
  values: Registers[K],
  base: RecordBase,
): RecordKinds[K] {
  return { ...base, ...FLATTEN[kind](values) } as RecordKinds[K];
}

/**
 * A stretch with its ends in order and at least 20 ms long (rule D4): when two people move the two ends of
 * one stretch past each other at once, it is turned round, never lost.
 */
export function inOrder(stretch: { startSec: Seconds; endSec: Seconds }): {
  startSec: Seconds;
  endSec: Seconds;
} {
  const startSec = Math.min(stretch.startSec, stretch.endSec);
  return { startSec, endSec: Math.max(stretch.startSec, stretch.endSec, startSec + SHORTEST_SEC) };
}
