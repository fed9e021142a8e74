import type { Copedent } from "@/lib/instrument/Copedent";
import { C_MAJOR, type Key } from "@/lib/theory/key";
import { chordToLetters, chordToNumberText } from "@/lib/theory/numberChart";
import { midiToName } from "@/lib/theory/spelling";
import type { Cents, Seconds } from "@/lib/units/quantities";
import { toAscii, wrapWords } from "./asciiText";
import type { BeatGrid } from "./barGrid";
import { homeToWords, tuningToWords } from "./headWords";
import { homeInForce, type LaterHome, laterHomesToWords } from "./laterHomes";
import type { PartEvent } from "./PartEvent";
import { type DrawnMeasure, drawMeasure } from "./tabColumns";
import { explainChanges, explainMarks } from "./tabLegend";
import { scoreTab, type TabMeasure, type TabScore } from "./tabScore";
import { warnOfRinging } from "./tabWarnings";

/** All that a text tab shows, as plain data. */
export interface TextTabInput {
  title: string;
  copedent: Copedent;
  /** Home, for the numbers; null writes the changes in letters. */
  key: Key | null;
  /** Whether home is known but kept from who reads; left out where it is not. */
  isHomeKept?: boolean;
  /** Where home changes later on, in order of time; left out where it does not. */
  laterHomes?: readonly LaterHome[];
  /** Null spaces the tab by seconds, without bar lines. */
  grid: BeatGrid | null;
  /** Labels in Harte syntax. */
  changes: readonly { startSec: Seconds; endSec: Seconds; label: string }[];
  part: readonly PartEvent[];
  /** Longest line, 40 to 200; a bar that does not fit stands on a longer line of its own. */
  widthColumns?: number;
  /** How far the record stands from A4 = 440 Hz, -50 to +50. */
  tuningCents?: Cents;
}

/** Lines beyond 60 to 64 columns wrap in mail and on phones (acousticguitarchord.blogspot.com 2012/05). */
const WIDTH_COLUMNS = 64;
/** Names of open strings are spelled with sharps, as E9 charts have them. */
const KEY_OF_STRING_NAMES: Key = { tonic: "E", mode: "major" };
/** As many bars without a note are told in words instead of drawn. */
const SILENT_BARS = 4;

/**
 * The part as text tab: one line a string, string 1 on top, fret and changes, numbers of the changes above,
 * wrapped at bar lines, then a legend of the marks used. Printable ASCII, lines ended by LF. The marks are those
 * of common text tab, with `>` for pedals and levers moved while a string rings and `=` for a string that rings.
 * Throws `HarteError` on a label that cannot be read.
 */
export function textTab(input: TextTabInput): string {
  const { copedent, key } = input;
  const width = Math.min(Math.max(input.widthColumns ?? WIDTH_COLUMNS, 40), 200);
  const known = new Set(copedent.strings.map((string) => string.number));
  const part = input.part.filter((event) => event.strings.some((string) => known.has(string)));
  const head = headLines(input).flatMap((line) => wrapWords(line, width));
  const left = leftOut(input.part, known).flatMap((line) => wrapWords(line, width, "  "));
  if (part.length === 0) return finish([...head, "", "No part is written yet.", ...left]);

  const changes = input.changes.map(({ startSec, endSec, label }) => ({
    startSec,
    endSec,
    text: toAscii(
      key === null
        ? chordToLetters(label, C_MAJOR)
        : chordToNumberText(label, homeInForce(key, input.laterHomes ?? [], startSec)),
    ),
  }));
  const score = scoreTab(copedent, input.grid, part, changes);
  const systems = layOut(score, copedent, width);
  const used = new Set(part.flatMap((event) => event.changes));
  const drawn = {
    strings: systems.flatMap((system) => system.strings).join("\n"),
    changes: systems.map((system) => system.changes).join("\n"),
  };
  const legend = [
    ...explainRuler(score, key),
    ...explainMarks(drawn, copedent.stoppedBy),
    ...explainChanges(copedent, used),
    ...warnOfRinging(copedent, input.grid, part),
    ...left,
  ];
  return finish([
    ...head,
    ...systems.flatMap((system) => ["", ...system.lines]),
    "",
    ...legend.flatMap((line) => wrapWords(line, width, "      ")),
  ]);
}

interface System {
  lines: string[];
  strings: string[];
  changes: string;
}

function layOut(score: TabScore, copedent: Copedent, width: number): System[] {
  const systems: System[] = [];
  const prefixes = copedent.strings.map((string) => {
    const name = midiToName(string.openMidi, KEY_OF_STRING_NAMES).replace(/-?\d+$/, "");
    return `${String(string.number).padStart(2)} ${name.padEnd(3)}`;
  });
  const silent = findSilence(score);
  let line: DrawnMeasure[] = [];
  const flush = () => {
    if (line.length > 0) systems.push(joinSystem(line, prefixes, score.measures[0]?.barNumber !== null));
    line = [];
  };
  for (const [index, measure] of score.measures.entries()) {
    const silence = silent.get(index);
    if (silence !== undefined) {
      flush();
      if (silence !== "") systems.push({ lines: [silence], strings: [], changes: "" });
      continue;
    }
    const next = drawMeasure(score, measure, line.length === 0);
    if (line.length > 0 && systemWidth([...line, next], prefixes, measure) > width) {
      flush();
      line = [drawMeasure(score, measure, true)];
    } else {
      line.push(next);
    }
  }
  flush();
  return systems;
}

function systemWidth(
  line: readonly DrawnMeasure[],
  prefixes: readonly string[],
  measure: TabMeasure,
): number {
  const lines = measure.barNumber === null ? 1 : line.length + 1;
  const columns = line.reduce((sum, drawn) => sum + drawn.ruler.length, 0);
  return (prefixes[0]?.length ?? 0) + lines + columns;
}

function joinSystem(line: readonly DrawnMeasure[], prefixes: readonly string[], hasBars: boolean): System {
  const parted = (texts: string[], sign: string) => texts.join(hasBars ? sign : "") + (hasBars ? sign : "");
  const label = (text: string) => text.padStart(prefixes[0]?.length ?? 0);
  const changes = parted(
    line.map((drawn) => drawn.change),
    " ",
  );
  const bars = parted(
    line.map((drawn) => drawn.bar),
    " ",
  );
  const ruler = parted(
    line.map((drawn) => drawn.ruler),
    hasBars ? "|" : "",
  );
  const strings = prefixes.map((_, row) =>
    parted(
      line.map((drawn) => drawn.strings[row] ?? ""),
      "|",
    ),
  );
  const lines = [
    ...(hasBars ? [`${label("bar")} ${bars}`] : []),
    `${label("change")} ${changes}`,
    hasBars ? `${label("beat")}|${ruler}` : `${label("second")} ${ruler}`,
    ...strings.map((text, row) => `${prefixes[row]}${hasBars ? "|" : " "}${text}`),
  ];
  return { lines, strings, changes };
}

/** Measures that lie in a long silence, each with the words that stand there (empty but for the first of them). */
function findSilence(score: TabScore): Map<number, string> {
  const silent = new Map<number, string>();
  const sounds = score.measures.map(({ beats }) => {
    const from = beats[0]?.firstSlot ?? 0;
    const to = from + beats.reduce((sum, beat) => sum + beat.slotCount, 0);
    return score.rows.some(
      (row) =>
        row.signs.some((sign) => sign.slot >= from && sign.slot < to) ||
        row.rings.some((ring) => ring.fromSlot < to && ring.toSlot > from),
    );
  });
  for (let from = 0; from < sounds.length; from += 1) {
    let to = from;
    while (sounds[to] === false) to += 1;
    if (to - from >= SILENT_BARS) {
      const [first, last] = [score.measures[from], score.measures[to - 1]];
      const words =
        first?.barNumber !== null
          ? `(bars ${first?.barNumber} to ${last?.barNumber}: no part)`
          : `(seconds ${first.beats[0]?.label} to ${Number(last?.beats[0]?.label) + 1}: no part)`;
      for (let index = from; index < to; index += 1) silent.set(index, index === from ? words : "");
    }
    from = Math.max(from, to);
  }
  return silent;
}

function headLines({
  title,
  key,
  isHomeKept,
  laterHomes = [],
  grid,
  tuningCents,
  copedent,
}: TextTabInput): string[] {
  const spacing = grid === null ? ["spaced by seconds, no bar lines: the beats are not known"] : [];
  return [
    toAscii(title) || "Untitled",
    toAscii(
      [
        isHomeKept ? "home covered" : homeToWords(key),
        ...laterHomesToWords(laterHomes, grid),
        ...tuningToWords(tuningCents),
        ...spacing,
      ].join(", "),
    ),
    toAscii(copedent.name),
  ];
}

function explainRuler(score: TabScore, key: Key | null): string[] {
  const hasKinds = score.changes.some((change) => /^[b#]?[1-7]\d/.test(change.text));
  const kinds = hasKinds ? ", then its kind (57: the 5 with its seventh)" : "";
  const how = key === null ? "in letters" : `as a number of the home key${kinds}`;
  const changes = score.changes.length === 0 ? [] : [`change: the chord ${how}`];
  const ruler =
    score.measures[0]?.barNumber === null
      ? "second: seconds of the record"
      : "beat: beats of the bar, & the half, dots cut the beat evenly";
  return [...changes, ruler];
}

/** A line for every string that the instrument lacks, so that nothing is dropped unsaid. */
function leftOut(part: readonly PartEvent[], known: ReadonlySet<number>): string[] {
  const strings = part.flatMap((event) => event.strings).filter((string) => !known.has(string));
  return [...new Set(strings)]
    .sort((a, b) => a - b)
    .map((string) => {
      const count = strings.filter((other) => other === string).length;
      return `Left out: ${count === 1 ? "one note" : `${count} notes`} on string ${string}, which this instrument lacks.`;
    });
}

function finish(lines: readonly string[]): string {
  return `${lines.join("\n")}\n`;
}
