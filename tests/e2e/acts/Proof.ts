import type { Hand } from "./Hand";
import type { Reading } from "./readings";
import type { Standing } from "./standings";

/** One act that acts.spec does twice, by its key and by a control, and which has the same effect both times. */
export interface Drill {
  /** What is in hand before. */
  at: Standing;
  /** Does it by mouse: a control by its name, or a gesture. */
  by: (hand: Hand) => Promise<unknown>;
  /** Where its effect is read. */
  reads: Reading;
  /** Keys as Playwright names them; those of the act's row where it can be pressed. */
  keys?: readonly string[];
  /** A gesture comes out somewhere near: both must have an effect there, not the same one. */
  isRough?: true;
  /** Keys that bring back what undo does not. */
  back?: readonly string[];
}

/** Another spec that proves it, by the words of a step or of the test itself. */
export interface Seen {
  spec: string;
  step: string;
}

export interface Elsewhere {
  key: Seen;
  /** Where no spec does it by mouse, why. */
  pointer: Seen | { because: string };
}

/** How each act of a group of keys is proven, by its key as the page prints it. */
export type GroupProofs = Readonly<Record<string, Drill | readonly Drill[] | Elsewhere>>;

export function isElsewhere(proof: Drill | readonly Drill[] | Elsewhere): proof is Elsewhere {
  return "key" in proof;
}

function isDrill(proof: Drill | readonly Drill[]): proof is Drill {
  return !Array.isArray(proof);
}

export function drillsOf(proof: Drill | readonly Drill[] | Elsewhere): readonly Drill[] {
  if (isElsewhere(proof)) return [];
  return isDrill(proof) ? [proof] : proof;
}

/** @param more what is not as usual */
export function drill(
  at: Standing,
  by: Drill["by"],
  reads: Reading,
  more: Omit<Drill, "at" | "by" | "reads"> = {},
): Drill {
  return { at, by, reads, ...more };
}
