/** An onset as it stands in a text tab. */
export interface ReadSign {
  bar: number;
  /** Place in the bar, 1 = the first beat of a whole bar; fractions as the ruler cuts the beat. */
  beat: number;
  string: number;
  /** `(` for a place in brackets, which is not picked. */
  sign: "" | ">" | "/" | "\\" | "(";
  /** Of this string. */
  fret: number;
  /** Under a slanted bar, the frets of all strings marked alike there, the furthest first; else null. */
  slant: number[] | null;
  changes: string;
  /** Signs behind the place, as written. */
  techniques: string;
  /** Whether it stands in brackets where its line opens: a tie, or what is held over from the line before. */
  opens: boolean;
}

/** The lines of one system, as written. */
export type TabSystem = string[];

/** Takes a text tab with bar lines apart into systems: blocks of lines that hold string lines. */
export function splitSystems(tab: string): TabSystem[] {
  return tab
    .split("\n\n")
    .map((block) => block.split("\n").filter((line) => line !== ""))
    .filter((lines) => lines.some((line) => /^ 1 \S+ *[| ]/.test(line)));
}

/** Reads every onset back from the columns alone, by ruler and string lines; knows nothing of the writer. */
export function readTab(tab: string): ReadSign[] {
  return splitSystems(tab).flatMap(readSystem).map(withOwnFret);
}

/** A slant's mark stands on each of its strings alike: which of its frets is whose follows from their order. */
function withOwnFret(sign: ReadSign, _: number, all: readonly ReadSign[]): ReadSign {
  if (sign.slant === null || sign.opens) return sign;
  const together = all.filter(
    ({ bar, beat, slant, opens }) =>
      !opens && bar === sign.bar && beat === sign.beat && slant?.join() === sign.slant?.join(),
  );
  const strings = together.map(({ string }) => string).sort((a, b) => a - b);
  if (strings.length !== sign.slant.length) throw new Error(`${strings.length} strings bear [${sign.slant}]`);
  return { ...sign, fret: sign.slant[strings.indexOf(sign.string)]! };
}

function readSystem(lines: TabSystem): ReadSign[] {
  const ruler = lines.find((line) => /^ *beat\|/.test(line))!;
  const barLine = lines.find((line) => /^ *bar /.test(line))!;
  const places = readRuler(ruler, barLine);
  const signs: ReadSign[] = [];
  for (const line of lines) {
    const start = /^([ \d]\d) \S+ *\|/.exec(line);
    if (start === null) continue;
    const body = " ".repeat(start[0].length) + line.slice(start[0].length);
    for (const match of body.matchAll(
      /([>/\\(]?)(?:(\d+(?:\.\d+)?)|\[([\d.,]+)\])([A-Za-z][A-Za-z0-9+]*)?([*~']*)/g,
    )) {
      const place = places.get(match.index);
      if (place === undefined) throw new Error(`No slot of the ruler at column ${match.index} of "${line}"`);
      signs.push({
        ...place,
        string: Number(start[1]),
        sign: match[1] as ReadSign["sign"],
        fret: Number(match[2]),
        slant: match[3]?.split(",").map(Number) ?? null,
        changes: match[4] ?? "",
        techniques: match[5] ?? "",
        opens: match[1] === "(" && match.index === start[0].length,
      });
    }
  }
  return signs;
}

/** Where each column of the ruler lies in time: a number is a beat, the signs after it cut that beat evenly. */
function readRuler(ruler: string, barLine: string): Map<number, { bar: number; beat: number }> {
  const places = new Map<number, { bar: number; beat: number }>();
  const firstColumn = ruler.indexOf("|");
  for (const measure of ruler.slice(firstColumn).matchAll(/\|([^|]+)/g)) {
    const from = firstColumn + measure.index + 1;
    const bar = Number(/^-?\d+/.exec(barLine.slice(from))?.[0]);
    for (const beat of measure[1]!.matchAll(/(\d+)([^\d]*)/g)) {
      const column = from + beat.index;
      const cuts = [...beat[2]!.matchAll(/[.&]/g)].map((cut) => column + beat[1]!.length + cut.index);
      for (const [index, at] of [column, ...cuts].entries()) {
        places.set(at, { bar, beat: Number(beat[1]) + index / (cuts.length + 1) });
      }
    }
  }
  return places;
}
