import type { Change, Copedent, Pulls } from "../Copedent";
import type { Chart, ChartChange, ChartMoves } from "./Chart";
import { slotToCode } from "./slotCode";

/**
 * Writes a copedent as plain JSON, without what `readChart` takes for granted; reading it back under the copedent's
 * id gives the same copedent.
 */
export function writeChart(copedent: Copedent): Chart {
  const { name, source, stoppedBy, splits, combinations, footRest, grips } = copedent;
  return {
    name,
    ...(source === "" ? {} : { source }),
    ...(stoppedBy === "bar" ? {} : { stoppedBy }),
    strings: copedent.strings.map(({ openMidi, beginsAtFret }) =>
      beginsAtFret === undefined ? openMidi : { midi: openMidi, beginsAtFret },
    ),
    frets: copedent.fretCount,
    changes: copedent.changes.map(writeChange),
    ...(splits.length === 0 ? {} : { split: [...splits] }),
    ...(combinations.length === 0
      ? {}
      : { combinations: combinations.map((each) => ({ ...each, stages: [...each.stages] })) }),
    ...(footRest.length === 0 ? {} : { footRest: [...footRest] }),
    ...(grips.length === 0 ? {} : { grips: grips.map((grip) => [...grip]) }),
  };
}

function writeChange({ id, label, slot, stages }: Change): ChartChange {
  const [only] = stages;
  return {
    id,
    ...(label === id ? {} : { label }),
    slot: slotToCode(slot),
    ...(stages.length === 1 && only !== undefined
      ? { moves: writeMoves(only) }
      : { stages: stages.map(writeMoves) }),
  };
}

function writeMoves(pulls: Pulls): ChartMoves {
  return Object.fromEntries(Object.entries(pulls));
}
