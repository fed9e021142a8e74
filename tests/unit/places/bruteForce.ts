import type { Copedent } from "@/lib/instrument/Copedent";

/** A depth for each change, 0 = off. */
type Depths = readonly number[];

/** Every place of some notes, found by trying everything: said apart from the code under test, straight from the rules. */
export function bruteForcePlaces(copedent: Copedent, notes: readonly number[], maxFret: number): string[] {
  const found = new Set<string>();
  for (const depths of everyDepths(copedent)) {
    if (!bodyCan(copedent, depths)) continue;
    const open = copedent.strings.map(({ number }) => [number, pitch(copedent, depths, number)] as const);
    for (let fret = 0; fret <= maxFret; fret += 1) {
      const owners = notes.map((note) =>
        open.filter(([, midi]) => midi !== null && midi + fret === note).map(([string]) => string),
      );
      for (const strings of everyChoice(owners)) {
        if (new Set(strings).size < strings.length || isTooMuch(copedent, depths, strings)) continue;
        found.add(writePlace({ fret, changes: idsOf(copedent, depths), strings, notesMidi: notes }));
      }
    }
  }
  return [...found].sort();
}

/** Two strings in unison change places without making another place: they are written in order. */
export function writePlace(place: {
  fret: number;
  changes: readonly string[];
  strings: readonly number[];
  notesMidi: readonly number[];
}): string {
  const pairs = place.strings.map((string, at) => [place.notesMidi[at]!, string] as const);
  const sounding = pairs
    .sort((a, b) => a[0] - b[0] || a[1] - b[1])
    .map(([midi, string]) => `${midi}@${string}`);
  return `${place.fret} ${[...place.changes].sort().join("+")} ${sounding.join(" ")}`;
}

function everyDepths({ changes }: Copedent): Depths[] {
  return changes.reduce<number[][]>(
    (rows, { stages }) =>
      rows.flatMap((row) => [0, ...stages.map((_, at) => at + 1)].map((depth) => [...row, depth])),
    [[]],
  );
}

function everyChoice(lists: readonly (readonly number[])[]): number[][] {
  return lists.reduce<number[][]>(
    (rows, list) => rows.flatMap((row) => list.map((each) => [...row, each])),
    [[]],
  );
}

/** No pedal, one, or two neighbours; each knee left or right; a knee lifts along with anything; locks hold themselves. */
function bodyCan({ changes }: Copedent, depths: Depths): boolean {
  const on = changes.filter((_, at) => depths[at]! > 0).map(({ slot }) => slot);
  const pedals = on.flatMap((slot) => (slot.kind === "pedal" ? [slot.place] : []));
  if (pedals.length > 2 || (pedals.length === 2 && Math.abs(pedals[0]! - pedals[1]!) !== 1)) return false;
  const has = (which: string, way: string) =>
    on.some((slot) => slot.kind === "knee" && slot.knee === which && slot.throw === way);
  return !(has("left", "left") && has("left", "right")) && !(has("right", "left") && has("right", "right"));
}

/** Open pitch and net change: the largest raise or the deepest lower, their sum on a split string, else none. */
function pitch({ strings, changes, splits }: Copedent, depths: Depths, string: number): number | null {
  const pulls = changes.map(({ stages }, at) =>
    depths[at] === 0 ? 0 : (stages[depths[at]! - 1]![string] ?? 0),
  );
  const [up, down] = [Math.max(0, ...pulls), Math.min(0, ...pulls)];
  if (up > 0 && down < 0 && !splits.includes(string)) return null;
  return strings.find(({ number }) => number === string)!.openMidi + up + down;
}

/** Whether some change could be left out with every string as it is. */
function isTooMuch(copedent: Copedent, depths: Depths, strings: readonly number[]): boolean {
  const same = (other: Depths) =>
    strings.every((string) => pitch(copedent, other, string) === pitch(copedent, depths, string));
  return depths.some((depth, at) => depth > 0 && same(depths.with(at, 0)));
}

function idsOf({ changes }: Copedent, depths: Depths): string[] {
  return changes.flatMap(({ id }, at) => (depths[at] === 0 ? [] : [id.repeat(depths[at]!)]));
}
