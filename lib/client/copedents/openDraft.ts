import type { Chart } from "@/lib/instrument/chart/Chart";
import { readChart } from "@/lib/instrument/chart/readChart";
import { slotToCode } from "@/lib/instrument/chart/slotCode";
import { openHome } from "@/lib/instrument/openHome";
import { allStages } from "@/lib/instrument/stages";
import { C_MAJOR } from "@/lib/theory/key";
import { midiToName } from "@/lib/theory/spelling";
import type { ChartDraft } from "./ChartDraft";
import { gripsToText } from "./gripsText";
import { moveToText } from "./moveText";

/**
 * Opens a chart for editing. Open notes are spelled in the key of the open strings.
 * @throws ChartFault where it is no chart
 */
export function openDraft(chart: Chart): ChartDraft {
  const copedent = readChart(chart);
  const home = openHome(copedent) ?? C_MAJOR;
  const stringKey = (number: number | string) => `s${number}`;
  const changeKey = (id: string) => `c${copedent.changes.findIndex((change) => change.id === id) + 1}`;
  const stages = allStages(copedent);
  return {
    name: copedent.name,
    source: copedent.source,
    stoppedBy: copedent.stoppedBy,
    frets: String(copedent.fretCount),
    strings: copedent.strings.map(({ number, openMidi, beginsAtFret }) => ({
      key: stringKey(number),
      pitch: midiToName(openMidi, home),
      beginsAtFret: beginsAtFret === undefined ? "" : String(beginsAtFret),
    })),
    changes: copedent.changes.map((change) => ({
      key: changeKey(change.id),
      id: change.id,
      label: change.label,
      slot: slotToCode(change.slot),
      stages: change.stages.map((pulls) =>
        Object.fromEntries(
          Object.entries(pulls).map(([string, pull]) => [stringKey(string), moveToText(pull)]),
        ),
      ),
    })),
    splits: copedent.splits.map(stringKey),
    combinations: copedent.combinations.map(({ string, stages: ids, semitones }) => ({
      string: stringKey(string),
      stages: ids.flatMap((id) => {
        const stage = stages.find((each) => each.id === id);
        return stage ? [{ change: changeKey(stage.change.id), depth: stage.depth }] : [];
      }),
      semitones,
    })),
    footRest: copedent.changes.flatMap(({ id, slot }) =>
      slot.kind === "pedal" && copedent.footRest.includes(slot.place) ? [changeKey(id)] : [],
    ),
    grips: gripsToText(copedent.grips),
  };
}
