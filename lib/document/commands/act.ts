import type * as Y from "yjs";
import type { EpochMs } from "@/lib/units/quantities";
import { isFiniteNumber } from "../records/guards";
import { MACHINE } from "../records/Stamp";
import { isNewer, type MapName, recordMap, SCHEMA, songMap } from "../records/storage";
import { type Refusal, Refused, refuse } from "./refusals";

/** Who acts, when and on which document; the clock and new ids come from outside. */
export interface CommandContext {
  doc: Y.Doc;
  /** Id of the person. */
  by: string;
  nowMs: EpochMs;
  /** Gives a new id each time, unlike any other and without `.`. */
  newId: () => string;
  /** Origin of the transaction; undo goes by it. */
  origin: unknown;
  /** Looks at what is about to be written, and throws {@link Refused} where it may not be (rule D58); left out, all may. */
  watch?: (writes: readonly Write[]) => void;
}

export type CommandResult =
  /** `ids` of the records that were touched, new ones included; empty where all was as wished already. */
  { ok: true; ids: string[] } | Refusal;

/** One write to a register; `undefined` takes the register away. */
export interface Write {
  kind: MapName;
  key: string;
  value: unknown;
}

/**
 * Runs one command (rule D17): `plan` checks and gathers its writes, which are then made in one transaction.
 * When it throws {@link Refused}, nothing is written.
 * @param plan pushes to `writes` and gives the ids of the records it touches
 */
export function act(ctx: CommandContext, plan: (writes: Write[]) => string[]): CommandResult {
  if (isNewer(ctx.doc)) return refuse("newerVersion");
  if (ctx.by === "" || ctx.by === MACHINE) return refuse("notAPerson");
  if (!isFiniteNumber(ctx.nowMs)) return refuse("badClock");
  const writes: Write[] = [];
  let ids: string[];
  try {
    ids = plan(writes);
    ctx.watch?.(writes);
  } catch (error) {
    if (error instanceof Refused) return refuse(error.reason);
    throw error;
  }
  commit(ctx, writes);
  return { ok: true, ids };
}

/** Makes the writes in one transaction, or none where there are none. */
export function commit(
  ctx: Pick<CommandContext, "doc" | "origin">,
  writes: readonly Write[],
  heard?: unknown,
): void {
  if (writes.length === 0 && heard === undefined) return;
  ctx.doc.transact(() => {
    const song = songMap(ctx.doc);
    if (song.get("schema") !== SCHEMA) song.set("schema", SCHEMA);
    for (const { kind, key, value } of writes) {
      if (value === undefined) recordMap(ctx.doc, kind).delete(key);
      else recordMap(ctx.doc, kind).set(key, value);
    }
    if (heard !== undefined) song.set("heard", heard);
  }, ctx.origin);
}
