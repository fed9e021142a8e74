import type { Beats } from "@/lib/units/quantities";

/** One beat of the tab's time, cut into equal slots; every sign stands at the beginning of a slot. */
export interface SlottedBeat {
  /** What the ruler writes at the beat. */
  label: string;
  slotCount: number;
  /** Number of its first slot, counted from the first beat. */
  firstSlot: number;
}

/** Events this little before a beat are played on it. */
const EARLY_BEATS: Beats = 1 / 8;
/** Finer and finer cuts, two and three alike; the first that keeps all events of a string apart is taken. */
const CUTS: readonly (readonly number[])[] = [[4, 3], [8, 6], [16, 12], [24], [48], [96]];
/** Thirds are taken only where they fit the events at least this many times closer than quarters. */
const THIRDS_MUST_WIN_BY = 2;

/**
 * Cuts beats into slots so that what happens on one string keeps its order and never shares a slot.
 * @param labels one a beat, for the ruler
 * @param rows for each string the ascending positions of its events, in beats from the first beat
 * @returns the beats, and for each position its slot, in the shape of `rows`
 */
export function cutIntoSlots(
  labels: readonly string[],
  rows: readonly (readonly Beats[])[],
): { beats: SlottedBeat[]; slots: number[][] } {
  const byBeat = rows.map((positions) => groupByBeat(positions, labels.length));
  const beats: SlottedBeat[] = [];
  const slots: number[][] = rows.map(() => []);
  let firstSlot = 0;
  for (const [beat, label] of labels.entries()) {
    const groups = byBeat.map((row) => row.get(beat) ?? []);
    const slotCount = chooseCut(groups);
    for (const [row, fractions] of groups.entries()) {
      for (const slot of placeInOrder(fractions, slotCount)) slots[row]?.push(firstSlot + slot);
    }
    beats.push({ label, slotCount, firstSlot });
    firstSlot += slotCount;
  }
  return { beats, slots };
}

/** The slot nearest to a position in beats; the slot after the last one for positions at the end or past it. */
export function nearestSlot(beats: readonly SlottedBeat[], position: Beats): number {
  const beat = beats[Math.floor(Math.max(position, 0))];
  const last = beats.at(-1);
  if (beat === undefined) return last === undefined ? 0 : last.firstSlot + last.slotCount;
  return beat.firstSlot + Math.round((Math.max(position, 0) % 1) * beat.slotCount);
}

/** Positions less their beat, under the beat to which they belong. */
function groupByBeat(positions: readonly Beats[], beatCount: number): Map<number, Beats[]> {
  const groups = new Map<number, Beats[]>();
  for (const position of positions) {
    const beat = Math.min(Math.max(Math.floor(position + EARLY_BEATS), 0), beatCount - 1);
    const group = groups.get(beat);
    if (group === undefined) groups.set(beat, [position - beat]);
    else group.push(position - beat);
  }
  return groups;
}

function chooseCut(groups: readonly (readonly Beats[])[]): number {
  for (const cuts of CUTS) {
    const apart = cuts.filter((cut) => groups.every((fractions) => staysApart(fractions, cut)));
    const [even, thirds] = apart;
    if (even === undefined) continue;
    if (thirds === undefined) return even;
    return misfit(groups, thirds) * THIRDS_MUST_WIN_BY < misfit(groups, even) ? thirds : even;
  }
  const most = Math.max(...groups.map((fractions) => fractions.length));
  let cut = 96;
  while (cut < most) cut *= 2;
  return cut;
}

function staysApart(fractions: readonly Beats[], cut: number): boolean {
  return fractions.every(
    (fraction, index) => index === 0 || nearestOf(fraction, cut) > nearestOf(fractions[index - 1] ?? 0, cut),
  );
}

function misfit(groups: readonly (readonly Beats[])[], cut: number): number {
  let sum = 0;
  for (const fraction of groups.flat()) sum += Math.abs(fraction - nearestOf(fraction, cut) / cut);
  return sum;
}

function nearestOf(fraction: Beats, cut: number): number {
  return Math.min(Math.max(Math.round(fraction * cut), 0), cut - 1);
}

/** Nearest slots, moved on where two would meet and moved back where the beat is full. */
function placeInOrder(fractions: readonly Beats[], cut: number): number[] {
  const placed: number[] = [];
  for (const fraction of fractions)
    placed.push(Math.max(nearestOf(fraction, cut), (placed.at(-1) ?? -1) + 1));
  for (let index = placed.length - 1, most = cut - 1; index >= 0; index -= 1, most -= 1) {
    placed[index] = Math.min(placed[index] ?? 0, most);
  }
  return placed;
}
