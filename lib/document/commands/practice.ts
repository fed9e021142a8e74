import { equalityDeep } from "lib0/function";
import { isCount, isSigns } from "../records/guards";
import { keptListening } from "../records/ListeningSettings";
import { readCountedThrough } from "../records/readRegisters";
import type { StudyCheck, StudyListening, ThroughCount } from "../records/records";
import { isRecordId, recordMap, registerKey } from "../records/storage";
import { act, type CommandContext, type CommandResult } from "./act";
import { findStanding } from "./Pen";
import { Refused } from "./refusals";
import { type Counted, StudyPen } from "./StudyPen";

/**
 * The origin of what these commands write, whatever the caller's: undo goes by origins, and takes back nothing that was
 * done (rules D41 to D43, D64).
 */
const PRACTICE = { name: "practice" };

/**
 * Adds to how often a person played a study through (rule D41).
 * @param device names the person's device: each adds to a count of its own, so that two at once both count. Without `.`
 */
export function countThrough(
  ctx: CommandContext,
  id: string,
  device: string,
  more: Pick<ThroughCount, "times" | "fullSpeedTimes">,
): CommandResult {
  return addTo("through", ctx, id, device, more);
}

/**
 * Adds to how many clean takes a person made of a study (rule D64).
 * @param device as in {@link countThrough}
 */
export function countClean(
  ctx: CommandContext,
  id: string,
  device: string,
  more: Pick<ThroughCount, "times" | "fullSpeedTimes">,
): CommandResult {
  return addTo("clean", ctx, id, device, more);
}

function addTo(
  what: Counted,
  ctx: CommandContext,
  id: string,
  device: string,
  { times, fullSpeedTimes }: Pick<ThroughCount, "times" | "fullSpeedTimes">,
): CommandResult {
  return act({ ...ctx, origin: PRACTICE }, (writes) => {
    const pen = new StudyPen(ctx, writes);
    findStanding(pen.sheet, id);
    if (!isRecordId(device)) throw new Refused("badId");
    if (!isCount(times) || !isCount(fullSpeedTimes) || times < 1 || fullSpeedTimes > times)
      throw new Refused("badCount");
    const register = pen.countRegister(what, device);
    const before = readCountedThrough(recordMap(ctx.doc, "study").get(registerKey(id, register)));
    const counted = {
      times: (before?.times ?? 0) + times,
      fullSpeedTimes: (before?.fullSpeedTimes ?? 0) + fullSpeedTimes,
      atMs: ctx.nowMs,
    };
    if (!isCount(counted.times)) throw new Refused("badCount");
    pen.count(id, register, counted);
    return [id];
  });
}

/** Keeps how a person listens to a study (rule D42); settings out of their ranges are cut to them. */
export function keepListening(
  ctx: CommandContext,
  id: string,
  { isLooped, settings }: Pick<StudyListening, "isLooped" | "settings">,
): CommandResult {
  return act({ ...ctx, origin: PRACTICE }, (writes) => {
    const pen = new StudyPen(ctx, writes);
    const { record } = findStanding(pen.sheet, id);
    const wanted = { isLooped, settings: keptListening(settings) };
    const kept = record.listening.find(({ by }) => by === ctx.by);
    if (kept?.isLooped === isLooped && equalityDeep(kept.settings, wanted.settings)) return [];
    pen.keepListening(id, { ...wanted, atMs: ctx.nowMs });
    return [id];
  });
}

/**
 * Keeps what a check of a study found to fit (rule D43), in place of what the person's check before it found.
 * @param fits of each event that fits, by its id, a sign of what it says, 1 to 64 characters
 */
export function keepCheck(ctx: CommandContext, id: string, fits: StudyCheck["fits"]): CommandResult {
  return act({ ...ctx, origin: PRACTICE }, (writes) => {
    const pen = new StudyPen(ctx, writes);
    findStanding(pen.sheet, id);
    if (!isSigns(fits)) throw new Refused("badCheck");
    pen.keepCheck(id, { fits: { ...fits }, atMs: ctx.nowMs });
    return [id];
  });
}
