import type { TabMeasure, TabScore, TabSign } from "./tabScore";
import type { SlottedBeat } from "./tabSlots";

/** A measure in characters. All texts have the same length; bar lines are not among them. */
export interface DrawnMeasure {
  bar: string;
  change: string;
  ruler: string;
  /** One a string, in the copedent's order. */
  strings: string[];
}

/** Fewest columns of a beat. */
const BEAT_COLUMNS = 4;
/** Up to here a crowded beat is widened evenly; past it only after the sign that needs room. */
const EVEN_BEAT_COLUMNS = 24;

/**
 * Gives a measure its columns. Beats are evenly spaced within themselves; a beat is made wider where its signs
 * would meet.
 * @param opens whether it is the first of its line, so that what still holds from before is shown in brackets
 */
export function drawMeasure(score: TabScore, measure: TabMeasure, opens: boolean): DrawnMeasure {
  const from = measure.beats[0]?.firstSlot ?? 0;
  const last = measure.beats.at(-1);
  const to = last === undefined ? from : last.firstSlot + last.slotCount;
  const within = (signs: readonly TabSign[]) =>
    signs
      .filter((sign) => sign.slot >= from && sign.slot < to)
      .map((sign) => ({ ...sign, slot: sign.slot - from }));
  const withLead = (signs: TabSign[], held: string | undefined): TabSign[] =>
    !opens || held === undefined || signs[0]?.slot === 0
      ? signs
      : [{ slot: 0, text: `(${held})`, joins: false }, ...signs];

  const stringSigns = score.rows.map((row) =>
    withLead(within(row.signs), row.rings.find((ring) => ring.fromSlot < from && ring.toSlot > from)?.text),
  );
  const changeSigns = withLead(
    within(score.changes.map((change) => ({ slot: change.fromSlot, text: change.text, joins: false }))),
    score.changes.find((change) => change.fromSlot < from && change.toSlot > from)?.text,
  );
  const barSigns =
    measure.barNumber === null ? [] : [{ slot: 0, text: String(measure.barNumber), joins: false }];
  const rulerSigns = measure.beats.flatMap((beat) => rulerOf(beat, from, measure.barNumber !== null));

  const columns = placeColumns(measure, [...stringSigns, changeSigns, barSigns, rulerSigns]);
  const width = columns.at(-1) ?? 0;
  return {
    bar: writeSigns(" ".repeat(width), columns, barSigns),
    change: writeSigns(" ".repeat(width), columns, changeSigns),
    ruler: writeSigns(" ".repeat(width), columns, rulerSigns),
    strings: score.rows.map((row, index) => {
      const rings = row.rings.filter((ring) => ring.fromSlot < to && ring.toSlot > from);
      const line = Array.from({ length: width }, (_, column) => {
        const slot = from + slotAt(columns, column);
        return rings.some((ring) => ring.fromSlot <= slot && slot < ring.toSlot) ? "=" : "-";
      });
      return writeSigns(line.join(""), columns, stringSigns[index] ?? []);
    }),
  };
}

/** A beat's number, then a sign a slot, `&` at the half; seconds go without, since any cut of them is by eye. */
function rulerOf(beat: SlottedBeat, from: number, everySlot: boolean): TabSign[] {
  const label: TabSign = { slot: beat.firstSlot - from, text: beat.label, joins: false };
  if (!everySlot) return [label];
  const others = Array.from({ length: beat.slotCount - 1 }, (_, index): TabSign => {
    const text = (index + 1) * 2 === beat.slotCount ? "&" : ".";
    return { slot: label.slot + index + 1, text, joins: true };
  });
  return [{ ...label, joins: true }, ...others];
}

/** First column of every slot, and last the width of the measure. */
function placeColumns(measure: TabMeasure, rows: readonly (readonly TabSign[])[]): number[] {
  const beatWidths = measure.beats.map((beat) =>
    beat.slotCount === 3 ? 2 * beat.slotCount : Math.max(BEAT_COLUMNS, beat.slotCount),
  );
  const extra = new Map<number, number>();
  const firstSlot = measure.beats[0]?.firstSlot ?? 0;
  const endGap = measure.barNumber === null ? 1 : 0;
  for (;;) {
    const columns = columnsOf(measure, beatWidths, extra);
    const tight = findTight(columns, rows, endGap);
    if (tight === null) return columns;
    const beat = measure.beats.findIndex(
      ({ firstSlot: first, slotCount }) => tight.slot + firstSlot < first + slotCount,
    );
    if ((beatWidths[beat] ?? EVEN_BEAT_COLUMNS) < EVEN_BEAT_COLUMNS) beatWidths[beat]! += 1;
    else extra.set(tight.slot, (extra.get(tight.slot) ?? 0) + tight.missing);
  }
}

function columnsOf(
  measure: TabMeasure,
  beatWidths: readonly number[],
  extra: ReadonlyMap<number, number>,
): number[] {
  const columns: number[] = [];
  let column = 0;
  for (const [index, { slotCount }] of measure.beats.entries()) {
    const width = beatWidths[index] ?? BEAT_COLUMNS;
    for (let slot = 0; slot < slotCount; slot += 1) {
      const share = Math.floor(((slot + 1) * width) / slotCount) - Math.floor((slot * width) / slotCount);
      columns.push(column);
      column += share + (extra.get(columns.length - 1) ?? 0);
    }
  }
  return [...columns, column];
}

/** The first sign without room for its text, and how many columns it wants. */
function findTight(
  columns: readonly number[],
  rows: readonly (readonly TabSign[])[],
  endGap: number,
): { slot: number; missing: number } | null {
  for (const signs of rows) {
    for (const [index, sign] of signs.entries()) {
      const next = signs[index + 1];
      const room = (columns[next?.slot ?? columns.length - 1] ?? 0) - (columns[sign.slot] ?? 0);
      const wanted = sign.text.length + (next === undefined ? endGap : next.joins ? 0 : 1);
      if (room < wanted) return { slot: sign.slot, missing: wanted - room };
    }
  }
  return null;
}

function slotAt(columns: readonly number[], column: number): number {
  let slot = 0;
  while ((columns[slot + 1] ?? Number.POSITIVE_INFINITY) <= column) slot += 1;
  return slot;
}

function writeSigns(line: string, columns: readonly number[], signs: readonly TabSign[]): string {
  let written = line;
  for (const { slot, text } of signs) {
    const at = columns[slot] ?? 0;
    written = written.slice(0, at) + text + written.slice(at + text.length);
  }
  return written;
}
