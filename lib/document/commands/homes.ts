import type { Mode } from "@/lib/theory/key";
import type { Seconds } from "@/lib/units/quantities";
import { readHomes } from "../read/readHomes";
import { isHomeKey, isTime, SHORTEST_SEC } from "../records/guards";
import { act, type CommandContext, type CommandResult } from "./act";
import { ink } from "./ink";
import { findStanding, Pen } from "./Pen";
import { Refused } from "./refusals";
import { rubOut } from "./rubOut";

/** Settles a pencilled home as it is seen. */
export function inkHome(ctx: CommandContext, id: string): CommandResult {
  return ink(ctx, "home", [id]);
}

/**
 * Sets where home is from `startSec` until the next home, in ink.
 * @param id the home to change or move; left out, the home that begins there is changed, or a new one written
 */
export function setHome(
  ctx: CommandContext,
  home: { startSec: Seconds; tonic: string; mode: Mode },
  id?: string,
): CommandResult {
  return act(ctx, (writes) => {
    const { startSec, tonic, mode } = home;
    const key = { tonic, mode };
    if (!isTime(startSec)) throw new Refused("badTime");
    if (!isHomeKey(key)) throw new Refused("badKey");
    const pen = new Pen(ctx, "home", writes);
    if (id !== undefined) return pen.ink(findStanding(pen.sheet, id), { startSec, key });
    const standing = [...pen.sheet.values()].filter((each) => each.standing === "shown");
    const there = readHomes(standing.map((each) => each.record)).find(
      (each) => Math.abs(each.startSec - startSec) < SHORTEST_SEC,
    );
    return there === undefined
      ? [pen.add({ startSec, key })]
      : pen.ink(findStanding(pen.sheet, there.id), { key });
  });
}

/** Rubs a home out; {@link restore} puts it back. */
export function rubOutHome(ctx: CommandContext, id: string): CommandResult {
  return rubOut(ctx, "home", id);
}
