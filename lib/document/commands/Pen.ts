import { equalityDeep } from "lib0/function";
import { type Settled, settleKind } from "../read/settle";
import { registerNames } from "../records/guards";
import type { RecordKind } from "../records/records";
import type { Ink, Pencil, Registers, Restoring, Rub } from "../records/registers";
import type { Mark } from "../records/Stamp";
import {
  INK_PREFIX,
  isRecordId,
  type MapName,
  PENCIL_REGISTER,
  RESTORE_PREFIX,
  RUB_PREFIX,
  registerKey,
} from "../records/storage";
import type { CommandContext, Write } from "./act";
import { Refused } from "./refusals";

/** All records of a kind as the document now holds them, hidden ones too. */
export type Sheet<K extends RecordKind> = ReadonlyMap<string, Settled<K>>;

/** The record, where people can see or put back something of that id; otherwise the command is refused. */
export function find<K extends RecordKind>(sheet: Sheet<K>, id: string): Settled<K> {
  const settled = sheet.get(id);
  if (settled === undefined || settled.standing === "retired") throw new Refused("unknownRecord");
  return settled;
}

/** The record, where it is not rubbed out; otherwise the command is refused. */
export function findStanding<K extends RecordKind>(sheet: Sheet<K>, id: string): Settled<K> {
  const settled = find(sheet, id);
  if (settled.standing === "rubbedOut") throw new Refused("rubbedOut");
  return settled;
}

/** Writes one kind of record on behalf of one person; gathers the writes of one command. */
export class Pen<K extends RecordKind> {
  readonly sheet: Sheet<K>;
  /** Where new records lie. */
  private readonly mapsOfNew = new Map<string, MapName>();

  constructor(
    protected readonly ctx: CommandContext,
    private readonly kind: K,
    private readonly writes: Write[],
  ) {
    this.sheet = settleKind(ctx.doc, kind);
  }

  /**
   * Makes a new record and gives its id. Ink unless told otherwise.
   * @param map where it lies, for kinds whose records lie in several
   */
  add(values: Registers[K], mark: Mark = "ink", map: MapName = this.kind): string {
    const { by, nowMs } = this.ctx;
    const id = this.newId();
    if (this.sheet.has(id)) throw new Refused("badId");
    this.mapsOfNew.set(id, map);
    if (mark === "ink") this.writeInk(id, { madeBy: by, madeAtMs: nowMs, values });
    else {
      const pencil: Pencil<K> = { by, atMs: nowMs, confidence: null, values };
      this.write(id, PENCIL_REGISTER, pencil);
    }
    return id;
  }

  /**
   * Settles a record with some registers changed (rule D6). Ink is written again only where something changes.
   * @param seen what the person saw of a pencilled record, where that differs from what was written
   * @returns the id, or nothing where all was as wished already
   */
  ink(settled: Settled<K>, edits: Partial<Registers[K]> = {}, seen: Partial<Registers[K]> = {}): string[] {
    const { id, record, isInk } = settled;
    const now = isInk ? settled.values : { ...settled.pinned, ...seen };
    const changed = registerNames(this.kind).filter(
      (name) => Object.hasOwn(edits, name) && !equalityDeep(now[name], edits[name]),
    );
    if (isInk && changed.length === 0) return [];
    if (!isInk) this.clearEdits(settled);
    for (const name of changed) this.write(id, name, edits[name]);
    const { madeBy, madeAtMs } = record;
    this.writeInk(id, { madeBy, madeAtMs, values: isInk ? settled.pinned : now });
    return [id];
  }

  /** Rubs a record out, naming the ink that the person saw (rule D9). */
  rubOut(settled: Settled<K>): string {
    const rub: Rub = { stamp: this.newId(), atMs: this.ctx.nowMs, seen: settled.inkStamps };
    this.write(settled.id, RUB_PREFIX + this.ctx.by, rub);
    return settled.id;
  }

  /** Puts a record back, naming the rubbings-out that the person saw (rule D10). */
  restore(settled: Settled<K>): string {
    const restoring: Restoring = { atMs: this.ctx.nowMs, seen: settled.rubStamps };
    this.write(settled.id, RESTORE_PREFIX + this.ctx.by, restoring);
    return settled.id;
  }

  /** Takes away one's own pencil that nobody inked or rubbed out; leaves anything else. @returns whether it did */
  takeBack({ id, record, isInk, standing, rubStamps }: Settled<K>): boolean {
    if (record.madeBy !== this.ctx.by || isInk || standing !== "shown" || rubStamps.length > 0) return false;
    this.write(id, PENCIL_REGISTER, undefined);
    return true;
  }

  /** Edits left over from ink that was taken back must not come into force with new ink. */
  private clearEdits(settled: Settled<K>): void {
    const names: readonly string[] = registerNames(this.kind);
    for (const name of settled.fieldNames) if (names.includes(name)) this.write(settled.id, name, undefined);
  }

  protected writeInk(id: string, ink: Omit<Ink<K>, "stamp" | "atMs">): void {
    const full: Ink<K> = { stamp: this.newId(), atMs: this.ctx.nowMs, ...ink };
    this.write(id, INK_PREFIX + this.ctx.by, full);
  }

  protected write(id: string, register: string, value: unknown): void {
    const map = this.sheet.get(id)?.map ?? this.mapsOfNew.get(id) ?? this.kind;
    this.writes.push({ kind: map, key: registerKey(id, register), value });
  }

  private newId(): string {
    const id = this.ctx.newId();
    if (!isRecordId(id)) throw new Refused("badId");
    return id;
  }
}
