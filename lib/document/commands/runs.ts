import type { Midi } from "@/lib/units/quantities";
import type { Settled } from "../read/settle";
import { clipped, leftBeside } from "../read/stretches";
import { isBassPitch, SHORTEST_SEC } from "../records/guards";
import type { Registers } from "../records/registers";
import type { Mark } from "../records/Stamp";
import { act, type CommandContext, type CommandResult, type Write } from "./act";
import { checkLabel } from "./changes";
import { Refused } from "./refusals";
import { StretchPen } from "./StretchPen";
import { checkStretch, type Stretch } from "./stretch";

/** Kinds that can be copied from one section to another. */
type CopiedKind = "change" | "bass";

/** What is copied into a stretch, each in the mark of what it was copied from. */
export interface CopiedStretches {
  changes: readonly (Stretch & { label: string; mark: Mark })[];
  bass: readonly (Stretch & { midi: Midi; mark: Mark })[];
}

/**
 * Writes a run of changes in ink, in one act (rule D57): it takes the place of the ink that stood there.
 * @param changes one after the other in time, gaps allowed; in a gap all stays as it is
 * @returns ids of the new changes, in order of time, then of the old ones that were touched
 */
export function writeChanges(
  ctx: CommandContext,
  changes: readonly (Stretch & { label: string })[],
): CommandResult {
  return act(ctx, (writes) => {
    if (changes.length === 0) throw new Refused("badRun");
    const run = changes.map(({ label, ...stretch }) => ({
      ...checkStretch(stretch),
      label: checkLabel(label),
    }));
    if (run.some((each, index) => index > 0 && each.startSec < (run[index - 1]?.endSec ?? 0) - SHORTEST_SEC))
      throw new Refused("badRun");
    const pen = new StretchPen(ctx, "change", writes);
    const touched = blocksOf(run).flatMap((block) => makeRoom(pen, block));
    return [...run.map((change) => pen.add(change)), ...touched];
  });
}

/**
 * Writes copies of changes and bass notes into a stretch, in one act (rule D57): around the ink that stands there, and in
 * place of the pencil.
 * @returns ids of what was written and of the pencil that was rubbed out
 */
export function copyStretches(ctx: CommandContext, into: Stretch, copies: CopiedStretches): CommandResult {
  return act(ctx, (writes) => {
    const stretch = checkStretch(into);
    const changes = copies.changes.map((each) => ({ ...each, label: checkLabel(each.label) }));
    for (const { midi } of copies.bass) if (!isBassPitch(midi)) throw new Refused("badPitch");
    return [
      ...copyInto(ctx, writes, "change", stretch, changes),
      ...copyInto(ctx, writes, "bass", stretch, copies.bass),
    ];
  });
}

function copyInto<K extends CopiedKind>(
  ctx: CommandContext,
  writes: Write[],
  kind: K,
  into: Stretch,
  copies: readonly (Registers[K] & Stretch & { mark: Mark })[],
): string[] {
  if (copies.length === 0) return [];
  const pen = new StretchPen<K>(ctx, kind, writes);
  const inked = pen.shown.filter(({ mark }) => mark === "ink");
  const written = copies.flatMap(({ mark, ...values }) => {
    checkStretch(values);
    return leftBeside(clipped(values, into), inked, SHORTEST_SEC).map((free) =>
      pen.add({ ...values, ...free } as unknown as Registers[K], mark),
    );
  });
  if (!copies.some(({ mark }) => mark === "pencil")) return written;
  const old = [...pen.sheet.values()].filter((each) => each.standing === "shown" && !each.isInk);
  return [
    ...written,
    ...old.filter((each) => isWithin(stretchOf(each), into)).map((each) => pen.rubOut(each)),
  ];
}

/** Ink that lies within the block goes; ink that begins there and goes on beyond begins after it. */
function makeRoom(pen: StretchPen<"change">, block: Stretch): string[] {
  const standing = [...pen.sheet.values()].filter((each) => each.standing === "shown" && each.isInk);
  return standing.flatMap((each) => {
    const { startSec } = stretchOf(each);
    if (isWithin(stretchOf(each), block)) return [pen.rubOut(each)];
    const beginsThere = startSec >= block.startSec - SHORTEST_SEC && startSec < block.endSec;
    return beginsThere ? pen.ink(each, { startSec: block.endSec }) : [];
  });
}

/** Stretches that follow each other without a gap, as one. */
function blocksOf(run: readonly Stretch[]): Stretch[] {
  const blocks: Stretch[] = [];
  for (const { startSec, endSec } of run) {
    const last = blocks.at(-1);
    if (last && startSec - last.endSec < SHORTEST_SEC) last.endSec = endSec;
    else blocks.push({ startSec, endSec });
  }
  return blocks;
}

/** As it is written, whatever covers it. */
function stretchOf({ record: { startSec, endSec } }: Settled<CopiedKind>): Stretch {
  return { startSec, endSec };
}

function isWithin(inner: Stretch, outer: Stretch): boolean {
  return inner.startSec >= outer.startSec - SHORTEST_SEC && inner.endSec <= outer.endSec + SHORTEST_SEC;
}
