import type { Copedent, Pulls } from "@/lib/instrument/Copedent";
import { pullToWords } from "@/lib/instrument/pullWords";
import { allStages } from "@/lib/instrument/stages";
import type { Semitones } from "@/lib/units/quantities";
import { TECHNIQUE_SIGNS } from "./tabCell";

const HEADING_OF_CHANGES = "Pedals and levers:";

interface MarkMeaning {
  example: string;
  meaning: string;
  /** What it means where fingers stop the strings; as `meaning` where left out. */
  underFingers?: { example?: string; meaning: string };
  isUsed: (drawn: DrawnSigns) => boolean;
}

/** Marks with what they mean, in the order in which a legend lists them. */
const MARKS: readonly MarkMeaning[] = [
  {
    example: "3",
    meaning: "pick the string, bar at fret 3",
    underFingers: { meaning: "pick the string, stopped at fret 3" },
    isUsed: ({ strings }) => /(?<![\d.(/\\>A-Za-z+[,])\d/.test(strings),
  },
  {
    example: "0",
    meaning: "open string, no bar",
    underFingers: { meaning: "open string" },
    isUsed: ({ strings }) => /(?<![\d.])0(?![\d.])/.test(strings),
  },
  {
    example: "[5,4]",
    meaning:
      "bar slanted: these frets on the strings so marked, the upper first; each of them bears the whole mark",
    isUsed: ({ strings }) => /\[/.test(strings),
  },
  {
    example: "3AB",
    meaning: "with those pedals or levers on, whichever of them pull this string",
    isUsed: ({ strings }) => /[\d\]][A-Za-z]/.test(strings),
  },
  {
    example: "3/5",
    meaning: "slide the bar up while the string rings, no new pick",
    underFingers: { meaning: "slide the finger up while the string rings, no new pick" },
    isUsed: ({ strings }) => /\/[\d.[]+/.test(strings),
  },
  {
    example: "5\\3",
    meaning: "slide the bar down while the string rings, no new pick",
    underFingers: { meaning: "slide the finger down while the string rings, no new pick" },
    isUsed: ({ strings }) => /\\[\d.[]+/.test(strings),
  },
  {
    example: "3/5A",
    meaning: "letters that change in a slide: pedals or levers move with the bar",
    isUsed: ({ strings }) => /[/\\][\d.,[\]]+[A-Za-z]/.test(strings),
  },
  {
    example: "3>3A",
    meaning: "press a pedal or lever while the string rings, no new pick",
    isUsed: ({ strings }) => />[\d.,[\]]+[A-Za-z]/.test(strings),
  },
  {
    example: "3A>3",
    meaning: "let it off while the string rings, no new pick",
    underFingers: {
      example: "3>5",
      meaning: "put a finger down or take it off while the string rings, no new pick",
    },
    isUsed: ({ strings }) => />[\d.,[\]]+(?![\d.,[\]A-Za-z])/.test(strings),
  },
  {
    example: "3*",
    meaning: "harmonic: touch the string an octave (12 frets) above, it sounds an octave higher",
    isUsed: ({ strings }) => strings.includes(TECHNIQUE_SIGNS.harmonic),
  },
  {
    example: "3~",
    meaning: "vibrato: shake the bar",
    underFingers: { meaning: "vibrato: shake the finger" },
    isUsed: ({ strings }) => strings.includes(TECHNIQUE_SIGNS.vibrato),
  },
  {
    example: "3'",
    meaning: "block: stop it short with palm or pick",
    underFingers: { meaning: "stop it short: let go, or lay the hand on the strings" },
    isUsed: ({ strings }) => strings.includes(TECHNIQUE_SIGNS.block),
  },
  { example: "===", meaning: "the string rings on", isUsed: ({ strings }) => strings.includes("=") },
  {
    example: "(3)",
    meaning: "still holds, as from the line before: not picked again",
    isUsed: ({ strings, changes }) => /\(/.test(strings) || /(^|[ |])\(/.test(changes),
  },
];

/** The drawn lines that a legend explains, joined. */
export interface DrawnSigns {
  strings: string;
  changes: string;
}

/** One line for every mark that the tab uses. */
export function explainMarks(drawn: DrawnSigns, stoppedBy: Copedent["stoppedBy"]): string[] {
  return MARKS.filter((mark) => mark.isUsed(drawn)).map((mark) => {
    const { example, meaning } = stoppedBy === "fingers" ? { ...mark, ...mark.underFingers } : mark;
    return `${example.padEnd(6)}${meaning}`;
  });
}

/** One line for every pedal or lever in use, as in `A: strings 5 and 10 up a whole step`. */
export function explainChanges(copedent: Copedent, ids: ReadonlySet<string>): string[] {
  const stages = allStages(copedent);
  const known = stages.filter((stage) => ids.has(stage.id));
  const unknown = [...ids].filter((id) => !stages.some((stage) => stage.id === id)).sort();
  const lines = [
    ...known.map((stage) => `${stage.id}: ${pullsToWords(stage.pulls)}`),
    ...unknown.map((id) => `${id}: not on this instrument`),
  ];
  return lines.length === 0 ? [] : [HEADING_OF_CHANGES, ...lines];
}

/** The pull of one stage in words: `strings 4 and 8 up a half step, string 2 down a whole step`. */
export function pullsToWords(pulls: Pulls): string {
  const byPull = new Map<Semitones, number[]>();
  for (const [string, pull] of Object.entries(pulls)) {
    byPull.set(pull, [...(byPull.get(pull) ?? []), Number(string)]);
  }
  return [...byPull].map(([pull, strings]) => `${stringsToWords(strings)} ${pullToWords(pull)}`).join(", ");
}

function stringsToWords(strings: readonly number[]): string {
  if (strings.length === 1) return `string ${strings[0]}`;
  return `strings ${strings.slice(0, -1).join(", ")} and ${strings.at(-1)}`;
}
