import type { Shorthand } from "./harte";

/**
 * How a quality is written after a number and after a letter. Numbers: major bare, minor `-`, diminished `o`,
 * augmented `+`, then 7, maj7, sus and so on, as charts of the number system print them (Nashville number
 * system, en.wikipedia.org). Letters: common practice, no source.
 */
export const CHORD_SUFFIXES: Readonly<Record<Shorthand, { number: string; letter: string }>> = {
  maj: { number: "", letter: "" },
  min: { number: "-", letter: "m" },
  dim: { number: "o", letter: "dim" },
  aug: { number: "+", letter: "+" },
  maj7: { number: "maj7", letter: "maj7" },
  min7: { number: "-7", letter: "m7" },
  "7": { number: "7", letter: "7" },
  dim7: { number: "o7", letter: "dim7" },
  hdim7: { number: "-7b5", letter: "m7b5" },
  minmaj7: { number: "-maj7", letter: "m(maj7)" },
  maj6: { number: "6", letter: "6" },
  min6: { number: "-6", letter: "m6" },
  "9": { number: "9", letter: "9" },
  maj9: { number: "maj9", letter: "maj9" },
  min9: { number: "-9", letter: "m9" },
  sus4: { number: "sus4", letter: "sus4" },
  sus2: { number: "sus2", letter: "sus2" },
  "11": { number: "11", letter: "11" },
  maj11: { number: "maj11", letter: "maj11" },
  min11: { number: "-11", letter: "m11" },
  "13": { number: "13", letter: "13" },
  maj13: { number: "maj13", letter: "maj13" },
  min13: { number: "-13", letter: "m13" },
  "5": { number: "5", letter: "5" },
  "1": { number: "root", letter: "(root)" },
};
