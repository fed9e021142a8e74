import { equalityDeep } from "lib0/function";
import type { RecordKinds } from "../records/records";
import type { LabelKind, LabelValues } from "./Label";

type Say = { readonly [K in LabelKind]: (record: RecordKinds[K]) => LabelValues[K] };

const SAY: Say = {
  // Where nobody said whose it is, it is the steel's (rule D28).
  note: ({ startSec, endSec, midi, glides, role }) => {
    return { startSec, endSec, midi, glides, whose: role?.whose ?? "steel" };
  },
  change: ({ startSec, endSec, label }) => ({ startSec, endSec, label }),
  bass: ({ startSec, endSec, midi }) => ({ startSec, endSec, midi }),
  section: ({ startSec, endSec, label, transposedSemitones }) => {
    return { startSec, endSec, label, transposedSemitones };
  },
  home: ({ startSec, tonic, mode }) => ({ startSec, tonic, mode }),
  tuning: ({ tuningCents }) => ({ tuningCents }),
  grid: ({ beatsSec, inBar, beatsPerBar, division, freeStretches }) => {
    return { beatsSec, inBar, beatsPerBar, division, freeStretches };
  },
};

/** What a record says, as everyone reads it. */
export function labelValues<K extends LabelKind>(kind: K, record: RecordKinds[K]): LabelValues[K] {
  const say: (record: RecordKinds[K]) => LabelValues[K] = SAY[kind];
  return say(record);
}

/** In what two of a kind differ. */
export function changedNames<V extends object>(settled: V, proposed: V): (keyof V)[] {
  const names = Object.keys(settled) as (keyof V)[];
  return names.filter((name) => !equalityDeep(settled[name], proposed[name]));
}
