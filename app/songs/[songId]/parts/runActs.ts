import { barFor } from "@/lib/client/axis/songGrid";
import { keepInView } from "@/lib/client/axis/timeAxis";
import { wordsOf } from "@/lib/client/requests/request";
import { type TypedRun, typedRun } from "@/lib/client/song/typedRun";
import { writeChanges } from "@/lib/document/commands/runs";
import type { Seconds } from "@/lib/units/quantities";
import type { Desk } from "./DeskContext";
import { guessActs } from "./guessActs";
import { numberKeyAt, selectedSpan } from "./selection";

/** What a typed run would write, or why it would not. */
export interface RunReading {
  run: TypedRun | null;
  /** In words; null where it can be written, or nothing is typed. */
  fault: string | null;
}

/** Changes typed in a run onto bars: seen before they are written, and written in one step. */
export function runActs(desk: Desk) {
  const { opened, selection, select, grid, player, page, run, setRun, setTyping, axis, say } = desk;

  function read(): RunReading {
    if (!run || run.text.trim() === "") return { run: null, fault: null };
    try {
      const { fromSec } = run;
      const read = typedRun(run.text, {
        grid,
        fromSec,
        durationSec: page.durationSec,
        keyAt: (timeSec: Seconds) => numberKeyAt(opened.song, timeSec),
      });
      return { run: read, fault: null };
    } catch (thrown) {
      return { run: null, fault: wordsOf(thrown) };
    }
  }

  return {
    read,
    /** Opens the field for a run, from the bar of the selection, else of the playhead. */
    open(text = "") {
      if (!desk.mayWrite) return;
      if (!grid) return say("The beats are not known, so a run has no bars to fall on. Tap them first: T.");
      const startSec = selectedSpan(opened.song, selection, grid)?.startSec ?? player.timeSec;
      const fromSec = barFor(grid, startSec)?.startSec ?? grid.bars[0]?.startSec ?? 0;
      if (guessActs(desk).keepsFrom("changes", [{ startSec: fromSec, endSec: fromSec + 0.5 }])) return;
      setTyping(null);
      setRun({ text, fromSec });
    },
    /** @returns whether it was written */
    write(): boolean {
      const reading = read();
      if (reading.fault) say(reading.fault);
      const { changes = [] } = reading.run ?? {};
      if (changes.length === 0 || guessActs(desk).keepsFrom("changes", changes)) return false;
      const ids = opened.acts.run((ctx) => writeChanges(ctx, changes));
      if (!ids?.[0]) return false;
      setRun(null);
      select({ kind: "change", id: ids[0], stretch: 0 });
      axis.change((now) => keepInView(now, changes[0]!.startSec, 60));
      say(
        `${changes.length} ${changes.length === 1 ? "change is" : "changes are"} in ink. Ctrl Z takes them back.`,
      );
      return true;
    },
    drop() {
      setRun(null);
      say(null);
    },
  };
}

/** Where a run falls, in a sentence. */
export function runWords({ run, fault }: RunReading): string {
  if (fault) return fault;
  if (!run) return "1 4 1/3 5: a bar each. (4 5) parts a bar, . goes on, % repeats, _ leaves what is there.";
  const { changes, fromBar, toBar, leftOver } = run;
  const from = fromBar < 1 ? "the upbeat" : `${fromBar === toBar ? "bar" : "bars"} ${fromBar}`;
  const bars = fromBar === toBar ? from : `${from} to ${fromBar < 1 ? "bar " : ""}${toBar}`;
  const over = leftOver > 0 ? ` The record ends before the last ${leftOver}.` : "";
  return `${changes.length} ${changes.length === 1 ? "change" : "changes"} in ${bars}.${over}`;
}
