import { barAt } from "@/lib/client/axis/songGrid";
import { keepInView } from "@/lib/client/axis/timeAxis";
import { heardTime } from "@/lib/client/beats/heardTime";
import { inkGrid, setGrid } from "@/lib/document/commands/whole";
import type { GridBeats } from "@/lib/document/records/registers";
import { doubleBeats, halveBeats } from "@/lib/notation/beats/beatRate";
import { type DownbeatReach, setDownbeat } from "@/lib/notation/beats/downbeat";
import { addBeatAfter, beatNear, moveBeat, removeBeat, shiftBeats } from "@/lib/notation/beats/editBeats";
import { freeAt, markFree, unmarkFree } from "@/lib/notation/beats/freeTime";
import { type MeterReach, setMeter } from "@/lib/notation/beats/meter";
import { layTaps, type TapReach } from "@/lib/notation/taps/layTaps";
import type { Seconds } from "@/lib/units/quantities";
import type { Desk } from "./DeskContext";
import { selectedSpan } from "./selection";

/** By which one beat, or all of them, go earlier or later at once. */
export const BEAT_STEP_SEC: Seconds = 0.01;
/** Beats to the bar where nothing says otherwise. */
const USUAL_METER = 4;

/** The acts on beats and bars: each sets the whole grid in ink, as one step. */
export function beatActs(desk: Desk) {
  const { opened, selection, select, player, taps, axis, page, say } = desk;
  const record = opened.song.grid;
  const { run } = opened.acts;
  const grid: GridBeats | null = record && {
    beatsSec: record.beatsSec,
    inBar: record.inBar,
    beatsPerBar: record.beatsPerBar,
    division: record.division,
    freeStretches: record.freeStretches,
  };
  const beat = grid && selection?.kind === "beat" ? beatNear(grid, selection.timeSec) : null;

  /** @returns whether it was written; the beat in hand stays in hand */
  function write(next: GridBeats, words: string, inHandSec?: Seconds): boolean {
    if (run((ctx) => setGrid(ctx, next)) === null) return false;
    if (inHandSec !== undefined) select({ kind: "beat", timeSec: inHandSec });
    say(words);
    return true;
  }

  function choose(timeSec: Seconds) {
    if (!grid) return say("The beats are not known yet. Play the record and tap T on each beat.");
    select({ kind: "beat", timeSec: grid.beatsSec[beatNear(grid, timeSec)] ?? timeSec });
  }

  return {
    /** As the document has it; null before any. */
    grid,
    /** Index of the beat in hand; null where none is. */
    beat,
    choose,
    /** Takes the beat at the selection, or at the playhead, in hand. */
    chooseHere() {
      const span = selection?.kind === "beat" ? null : selectedSpan(opened.song, selection, desk.grid);
      choose(span?.startSec ?? player.timeSec);
    },
    step(direction: -1 | 1) {
      const next = grid && beat !== null ? grid.beatsSec[beat + direction] : undefined;
      if (next === undefined) return;
      select({ kind: "beat", timeSec: next });
      axis.change((now) => keepInView(now, next, 60));
    },
    ink() {
      if (record) run((ctx) => inkGrid(ctx, record.id));
    },
    /** Says that a beat is the first of its bar. */
    downbeat(at: number, reach: DownbeatReach) {
      if (!grid) return;
      const sec = grid.beatsSec[at];
      write(
        setDownbeat(grid, at, reach),
        reach === "song" ? "This beat is 1; all bars moved with it." : "This beat is 1 from here on.",
        selection?.kind === "beat" ? sec : undefined,
      );
    },
    /** Puts one beat elsewhere. */
    move(at: number, toSec: Seconds) {
      if (!grid) return;
      const next = moveBeat(grid, at, Math.min(toSec, page.durationSec));
      write(next, "The beat is moved.", next.beatsSec[at]);
    },
    /** All beats earlier or later. */
    shift(bySec: Seconds) {
      if (!grid) return;
      const next = shiftBeats(grid, bySec);
      const words = `All beats ${Math.round(Math.abs(bySec) * 1000)} ms ${bySec < 0 ? "earlier" : "later"}.`;
      write(next, words, selection?.kind === "beat" ? Math.max(0, selection.timeSec + bySec) : undefined);
    },
    add() {
      if (!grid || beat === null) return;
      const next = addBeatAfter(grid, beat);
      if (next === grid) say("There is no room for a beat between this one and the next.");
      else write(next, "One beat more in this bar.", next.beatsSec[beat + 1]);
    },
    rubOut() {
      if (!grid || beat === null) return;
      const next = removeBeat(grid, beat);
      if (next === grid) say("It is the only beat, so it stays.");
      else
        write(next, "One beat fewer in this bar.", next.beatsSec[Math.min(beat, next.beatsSec.length - 1)]);
    },
    halve() {
      if (grid) write(halveBeats(grid), "Half as many beats.");
    },
    double() {
      if (grid) write(doubleBeats(grid), "Twice as many beats.");
    },
    meter(beatsPerBar: number, reach: MeterReach) {
      if (!grid) return;
      const words = { song: "in the whole song", onward: "from this bar on", bar: "in this bar alone" }[
        reach
      ];
      write(
        setMeter(grid, beat ?? 0, beatsPerBar, reach),
        `${beatsPerBar} ${beatsPerBar === 1 ? "beat" : "beats"} to the bar ${words}.`,
      );
    },
    /** Whether beats fall into two or three. */
    division(division: 2 | 3) {
      if (grid) write({ ...grid, division }, `Beats fall into ${division === 2 ? "two" : "three"}.`);
    },
    /** Marks the selected stretch as free time; where all of it is so already, says that there is a beat after all. */
    free() {
      if (!grid) return;
      const free = grid.freeStretches ?? [];
      const inHand = selection?.kind === "beat" ? freeAt(free, selection.timeSec) : null;
      const span =
        inHand ?? (selection?.kind === "beat" ? null : selectedSpan(opened.song, selection, desk.grid));
      if (!span) return say("Select a stretch first, then mark it as free time.");
      const { startSec, endSec } = span;
      const around = freeAt(free, (startSec + endSec) / 2);
      const isFree = around !== null && around.startSec <= startSec + 0.02 && around.endSec >= endSec - 0.02;
      const freeStretches = isFree ? unmarkFree(free, span) : markFree(free, { startSec, endSec });
      write(
        { ...grid, freeStretches },
        isFree ? "There is a steady beat here." : "Free time: no steady beat is played here.",
      );
    },
    /** A beat, tapped while the record plays. @param sinceMs how long ago the key went down */
    tap(isDownbeat: boolean, sinceMs: number) {
      if (!desk.mayWrite) return;
      const { isPlaying, speed } = player.now();
      if (!isPlaying)
        return say(
          taps.isOpen ? "The record stands still. Enter lays the beats, Esc drops them." : TAP_WHILE_PLAYING,
        );
      const outputSec = player.output?.context.outputLatency ?? 0;
      // From memory the player tells what is heard, by the media element what it sends out.
      const record = { timeSec: player.timeSec, speed, isAsHeard: player.isExact, outputSec };
      const timeSec = heardTime(record, sinceMs);
      if (!taps.isOpen && selection?.kind !== "beat") select({ kind: "beat", timeSec });
      taps.tap({ timeSec, isDownbeat });
    },
    /** Makes the grid of what was tapped. */
    layTaps(reach: TapReach) {
      const { fitted } = taps.now();
      if (!fitted) return say("Tap four beats or more, then lay them.");
      const laid = layTaps(grid, fitted, reach, {
        durationSec: page.durationSec,
        beatsPerBar: USUAL_METER,
      });
      const [fromSec = 0, toSec = 0] = [fitted.beatsSec[0], fitted.beatsSec.at(-1)];
      const next: GridBeats = {
        division: 2,
        ...grid,
        beatsSec: [...laid.beatsSec],
        inBar: [...laid.inBar],
        beatsPerBar: laid.beatsPerBar,
        // There is a beat where one was tapped.
        freeStretches: unmarkFree(grid?.freeStretches ?? [], { startSec: fromSec, endSec: toSec }),
      };
      if (write(next, `${fitted.beatsSec.length} tapped beats are laid, in ink.`, fromSec)) taps.drop();
    },
    dropTaps() {
      if (taps.drop()) say("The taps are dropped; the beats stand as they were.");
    },
    /** Number of the bar in which the beat in hand lies; null where none is in hand. */
    bar: desk.grid && selection?.kind === "beat" ? barAt(desk.grid, selection.timeSec + 0.001) : null,
  };
}

const TAP_WHILE_PLAYING = "Play the record, then tap T on each beat, 1 on the first of a bar.";
