import { C_MAJOR, type Key } from "@/lib/theory/key";
import { chordToLetters, chordToNumberText } from "@/lib/theory/numberChart";
import type { Beats, Cents, Seconds } from "@/lib/units/quantities";
import { toAscii, wrapWords } from "./asciiText";
import { type Bar, type BeatGrid, gridBars, secondsToBeat } from "./barGrid";
import { usualMeter } from "./beats/meter";
import { homeToWords, tuningToWords } from "./headWords";
import { homeInForce, type LaterHome, laterHomesToWords } from "./laterHomes";

/** All that a chart of the changes shows, as plain data. */
export interface ChartInput {
  title: string;
  /** Home, for the numbers; null writes the changes in letters. */
  key: Key | null;
  /** Where home changes later on, in order of time; left out where it does not. */
  laterHomes?: readonly LaterHome[];
  /** Null lists the changes by time. */
  grid: BeatGrid | null;
  /** Labels in Harte syntax, in order of time, not overlapping. */
  changes: readonly { startSec: Seconds; endSec: Seconds; label: string }[];
  /** Beats a minute; left out where it is not known. */
  tempoBpm?: number;
  /** How far the record stands from A4 = 440 Hz, -50 to +50. */
  tuningCents?: Cents;
}

/** Phrases stand in rows of four bars (scribd.com 432954800, talkbass.com 967423). */
const BARS_IN_A_ROW = 4;
const WIDTH_COLUMNS = 64;
/** Stands where no change is written. */
const BLANK = "_";
/** A change that comes this much before a beat, or later, belongs to it, but is early: an eighth is half a beat. */
const PUSH_FROM: Beats = 0.7;
/** Within this much of a beat a change is on it. */
const ON_BEAT: Beats = 0.3;

/**
 * The changes as a number chart: one number a bar, rows of four bars, split bars in brackets with a dot for each
 * beat where the shares differ, `^` for a push, other metres in square brackets. The signs are
 * those of handwritten number charts (doczz.net/doc/2569692, J. Riley) in ASCII. Lines end by LF.
 * Throws `HarteError` on a label that cannot be read.
 */
export function numberChart(input: ChartInput): string {
  const { title, key, laterHomes = [], grid, tempoBpm, tuningCents } = input;
  const text = (label: string, startSec: Seconds) =>
    toAscii(
      key === null
        ? chordToLetters(label, C_MAJOR)
        : chordToNumberText(label, homeInForce(key, laterHomes, startSec)),
    );
  const facts = [
    homeToWords(key),
    ...laterHomesToWords(laterHomes, grid),
    ...(grid === null ? [] : [`${usualMeter(grid)} beats to the bar`]),
    ...(tempoBpm === undefined ? [] : [`${Math.round(tempoBpm)} beats a minute`]),
    ...tuningToWords(tuningCents),
  ];
  const head = [toAscii(title) || "Untitled", ...wrapWords(toAscii(facts.join(", ")), WIDTH_COLUMNS), ""];
  if (input.changes.length === 0) return `${[...head, "No changes are written yet."].join("\n")}\n`;
  if (grid === null || grid.beatsSec.length === 0) {
    const lines = input.changes.map(
      ({ startSec, label }) => `${clock(startSec).padStart(7)}  ${text(label, startSec)}`,
    );
    return `${[...head, ...lines, "", "By time: the beats are not known."].join("\n")}\n`;
  }

  const firstSec = input.changes[0]?.startSec ?? 0;
  const lastSec = Math.max(...input.changes.map((change) => change.endSec));
  const held = input.changes.map((change) => ({
    fromBeat: secondsToBeat(grid, change.startSec),
    toBeat: secondsToBeat(grid, change.endSec),
    text: text(change.label, change.startSec),
  }));
  const bars = gridBars(grid, Math.max(firstSec, grid.beatsSec[0] ?? 0), lastSec);
  const meter = usualMeter(grid);
  const cells = bars.map((bar) => ({ bar, text: writeBar(bar, meter, held) }));
  while (cells.at(-1)?.text.replaceAll(/\[.*: |\]/g, "") === BLANK) cells.pop();
  const rows = inRows(cells);
  const drawn = rows.join("\n");
  return `${[...head, ...rows, "", ...explain(drawn)].join("\n")}\n`;
}

interface HeldChange {
  fromBeat: Beats;
  toBeat: Beats;
  text: string;
}

/** One bar: `1`, `(6- 5)`, `(1... 5.)`, `4^`, `[2/4: 5]`. */
function writeBar(bar: Bar, beatsPerBar: number, held: readonly HeldChange[]): string {
  const shares: { text: string; beats: number }[] = [];
  for (let beat = bar.startBeat; beat < bar.endBeat; beat += 1) {
    const change = held.find(({ fromBeat, toBeat }) => fromBeat <= beat + ON_BEAT && toBeat > beat + ON_BEAT);
    const early = change === undefined ? 0 : beat - change.fromBeat;
    const text = change?.text ?? BLANK;
    const isPushed = early > ON_BEAT && early <= PUSH_FROM;
    const last = shares.at(-1);
    if (last !== undefined && !isPushed && last.text.replace("^", "") === text) last.beats += 1;
    else shares.push({ text: isPushed ? `${text}^` : text, beats: 1 });
  }
  const equal = shares.every((share) => share.beats === shares[0]?.beats);
  const inner = shares.map(({ text, beats }) => (equal ? text : text + ".".repeat(beats))).join(" ");
  const split = shares.length > 1 ? `(${inner})` : inner;
  const beats = bar.endBeat - bar.startBeat;
  if (beats === beatsPerBar) return split;
  return `[${bar.firstInBar > 1 ? "pickup" : `${beats}/4`}: ${split}]`;
}

function inRows(cells: readonly { bar: Bar; text: string }[]): string[] {
  const groups: (typeof cells)[number][][] = [];
  for (const cell of cells) {
    const row = groups.at(-1);
    // A pickup stands before its row's four bars.
    const full = row === undefined || row.filter(({ bar }) => bar.number > 0).length === BARS_IN_A_ROW;
    if (full) groups.push([cell]);
    else row.push(cell);
  }
  const widths = Array.from({ length: BARS_IN_A_ROW }, (_, column) =>
    Math.max(3, ...groups.map((row) => row.filter(({ bar }) => bar.number > 0)[column]?.text.length ?? 0)),
  );
  return groups.map((row) => {
    const pickup = row.filter(({ bar }) => bar.number <= 0).map(({ text }) => text);
    const whole = row.filter(({ bar }) => bar.number > 0);
    const columns = whole.map(({ text }, column) => text.padEnd(widths[column] ?? 0));
    const label = `bar ${String(whole[0]?.bar.number ?? row[0]?.bar.number ?? 0).padStart(3)}:`;
    return [label, ...pickup, ...columns].join("  ").trimEnd();
  });
}

function explain(drawn: string): string[] {
  const body = drawn.replaceAll(/^bar +-?\d+:/gm, "");
  return [
    ...(/(^|[ [])\(/m.test(body) ? ["(1 4)  the bar is split, in equal shares"] : []),
    ...(/\.+[ )]/.test(body.replaceAll("N.C.", "")) ? ["(1... 4.)  a dot for each beat"] : []),
    ...(body.includes("^") ? ["4^  comes half a beat early"] : []),
    ...(body.includes("[") ? ["[2/4: 1]  a bar of another length"] : []),
    ...(body.includes(BLANK) ? [`${BLANK}  no change written`] : []),
  ];
}

function clock(timeSec: Seconds): string {
  const tenths = Math.round(timeSec * 10);
  const seconds = ((tenths % 600) / 10).toFixed(1).padStart(4, "0");
  return `${Math.floor(tenths / 600)}:${seconds}`;
}
