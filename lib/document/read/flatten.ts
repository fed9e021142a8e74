import type { Certainty } from "@/lib/hearing/Hearing";
import { settleFrets } from "@/lib/instrument/frets";
import { TECHNIQUES } from "@/lib/notation/Technique";
import type { Seconds } from "@/lib/units/quantities";
import { SHORTEST_SEC } from "../records/guards";
import type { NoteRole, Practice, RecordBase, RecordKind, RecordKinds } from "../records/records";
import type { Pencil, Registers } from "../records/registers";
import { NO_PRACTICE } from "./readPractice";

/** What people said of a record, or did with it, apart from what it says itself. */
export interface Beside {
  /** Whose they said it is. */
  role: NoteRole | null;
  practice: Practice;
}

type Flatten = {
  readonly [K in RecordKind]: (
    values: Registers[K],
    machine: Pencil<K> | null,
    base: RecordBase,
    beside: Beside | null,
  ) => Omit<RecordKinds[K], keyof RecordBase>;
};

const FLATTEN: Flatten = {
  tuning: ({ tuningCents }) => ({ tuningCents }),
  grid: ({ beats }, machine, { confidence }) => {
    const { division = 2, freeStretches = [] } = beats;
    const said = confidence === null ? null : machine?.aside;
    const { beatsConfidence = null, barsConfidence = null } = said ?? {};
    return { ...beats, division, freeStretches, beatsConfidence, barsConfidence };
  },
  home: ({ startSec, key }, machine) => ({
    startSec,
    ...key,
    guesses: guesses(machine?.values.key, machine?.confidence, machine?.aside?.nextBest),
  }),
  change: (values, machine) => ({
    ...values,
    ...inOrder(values),
    guesses: guesses(
      machine?.values && { label: machine.values.label },
      machine?.confidence,
      machine?.aside?.nextBest,
    ),
  }),
  bass: (values) => ({ ...values, ...inOrder(values) }),
  section: (values) => ({ ...values, ...inOrder(values) }),
  note: (values, machine, _, beside) => {
    const { startSec, endSec } = inOrder(values);
    const glides = values.glides.filter(({ atSec }) => startSec <= atSec && atSec <= endSec);
    const steel = machine?.aside?.steel ?? null;
    return { ...values, startSec, endSec, glides, steel, role: beside?.role ?? null };
  },
  part: ({ part, fret, frets, changes, articulation, ...values }) => {
    const strings = [...values.strings].sort((a, b) => a - b);
    const held = settleFrets(strings.map((string) => frets?.[string] ?? fret));
    const techniques = TECHNIQUES.filter((technique) => values[technique]);
    return { part, ...inOrder(values), strings, ...held, changes, articulation, techniques };
  },
  study: (values, _, __, beside) => ({ ...values, ...inOrder(values), ...(beside?.practice ?? NO_PRACTICE) }),
};

/** The machine's own proposal, then its next best (rule D23); none where it proposed nothing. */
function guesses<G>(
  own: G | undefined,
  confidence: Certainty | null | undefined,
  nextBest: readonly (G & { confidence: Certainty })[] = [],
): (G & { confidence: Certainty })[] {
  return own === undefined || typeof confidence !== "number" ? [] : [{ ...own, confidence }, ...nextBest];
}

/**
 * The record that its registers make, as readers get it.
 * @param machine what the machine proposed it as, if it did
 * @param beside null where that is not wanted
 */
export function flatten<K extends RecordKind>(
  kind: K,
  values: Registers[K],
  machine: Pencil<K> | null,
  base: RecordBase,
  beside: Beside | null,
): RecordKinds[K] {
  return { ...base, ...FLATTEN[kind](values, machine, base, beside) } as RecordKinds[K];
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
