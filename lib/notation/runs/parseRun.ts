import type { Beats } from "@/lib/units/quantities";

/** What is played for a part of a bar, as it was typed. */
export interface RunShare {
  /** A number or letters; `held` goes on with what was before, `blank` leaves what stands there. */
  chord: { text: string } | "held" | "blank";
  /** Beats that were counted by dots; null where the bar is shared out evenly. */
  beats: Beats | null;
  /** Comes half a beat early. */
  isPushed: boolean;
}

/** One bar of a typed run: one share, or several in order. */
export type RunBar = RunShare[];

/** A run that cannot be read; the message is in words for people. */
export class RunError extends Error {
  override readonly name = "RunError";
}

/** More bars than any song has are a slip of the keyboard. */
export const MOST_BARS = 600;
const HELD: RunShare = { chord: "held", beats: null, isPushed: false };

/**
 * Reads changes typed one after the other, as number charts have them (doczz.net/doc/2569692, J. Riley; what is not there is
 * common practice, no source):
 *
 * `1 4 1/3 5 6-` one bar each, letters too · `.` the bar before goes on · `%` the bar before again · `_` what stands there stays ·
 * `N` no chord · `(4 5)` a bar in equal shares · `(1... 5.)` a dot for each beat · `4^` half a beat early · `1 x4` four bars of it ·
 * `|: 1 4 :| x3` over and over · `| 1 4 | 5 |` between bar lines all of a bar. What `numberChart` writes reads back, `[2/4: 5]`
 * as the bar that the grid has there.
 *
 * Chords are not looked at: that is for whoever knows the key.
 * @throws RunError
 */
export function parseRun(text: string): RunBar[] {
  const plain = text.replaceAll("·", ".").replaceAll("…", "...");
  const tokens: readonly string[] = plain.match(TOKEN) ?? [];
  const isLined = tokens.includes("|");
  const bars: RunBar[] = [];
  /** What `x3` plays three times: the last bar, or those between repeat signs. */
  let unit: { from: number; bars: RunBar[] } = { from: 0, bars: [] };
  let opened = 0;
  for (let at = 0; at < tokens.length; at += 1) {
    const token = tokens[at] ?? "";
    const times = /^x(\d+)$/i.exec(token)?.[1];
    if (/^([,|\]]|\[.*:)$/.test(token)) continue;
    if (token === "|:") opened = bars.length;
    else if (token === ":|") {
      unit = { from: opened, bars: bars.slice(opened) };
      bars.push(...unit.bars);
      opened = bars.length;
    } else if (times !== undefined) {
      if (unit.bars.length === 0) throw new RunError(`${token} repeats the bar before it: type that first.`);
      if (Number(times) < 1 || Number(times) > MOST_BARS) throw new RunError(`"${token}" cannot be read.`);
      bars.length = unit.from;
      for (let time = 0; time < Number(times); time += 1) bars.push(...unit.bars);
      opened = bars.length;
    } else {
      const [bar, used] = readBar(tokens.slice(at), isLined, bars.at(-1));
      unit = { from: bars.length, bars: [bar] };
      bars.push(bar);
      at += used - 1;
    }
    if (bars.length > MOST_BARS) throw new RunError(`These are more than ${MOST_BARS} bars.`);
  }
  return bars;
}

const TOKEN = /\|:|:\||\||\(|\)|\[[^\]:]*:|\]|[^\s|()[\],]+(?:\([b#*\d,]+\))?[^\s|()[\],]*|\S/g;
/** What ends a bar between bar lines. */
const ENDS_BAR = /^(\|:?|:\||\]|x\d+)$/i;

/** The bar that these tokens begin with. @returns it, and how many tokens it takes */
function readBar(tokens: readonly string[], isLined: boolean, before: RunBar | undefined): [RunBar, number] {
  const [first = ""] = tokens;
  if (first === "%") {
    if (!before) throw new RunError("% repeats the bar before it: type that first.");
    return [before, 1];
  }
  if (isLined) {
    const end = tokens.findIndex((token) => ENDS_BAR.test(token));
    const cell = tokens.slice(0, end < 0 ? tokens.length : end);
    return [cell.filter((token) => !/^[(),]$/.test(token)).map(readShare), cell.length];
  }
  if (first === "(") {
    const end = tokens.indexOf(")");
    if (end < 0) throw new RunError("A bracket is open. Close it after the changes of its bar.");
    if (end === 1) throw new RunError("Nothing stands in these brackets: type the changes of the bar.");
    return [
      tokens
        .slice(1, end)
        .filter((token) => token !== ",")
        .map(readShare),
      end + 1,
    ];
  }
  return [[readWhole(first)], 1];
}

function readWhole(token: string): RunShare {
  const share = readShare(token);
  if (share.beats !== null)
    throw new RunError(
      `Dots count beats within brackets: write "(${token} ...)", and "." alone for a bar that goes on.`,
    );
  return share;
}

function readShare(token: string): RunShare {
  if (/^\.+$/.test(token)) return { ...HELD, beats: token.length > 1 ? token.length : null };
  if (token === "_") return { ...HELD, chord: "blank" };
  const [, written = token, dots = ""] = /^(n\.c\.|.*?)(\.*)$/i.exec(token) ?? [];
  const isPushed = written.endsWith("^");
  const text = isPushed ? written.slice(0, -1) : written;
  if (text === "" || /^[()[\]|]$/.test(text)) throw new RunError(`"${token}" cannot be read here.`);
  return { chord: { text }, beats: dots === "" ? null : dots.length, isPushed };
}
