import type { NoteRole } from "../records/records";
import type { Registers, SaidRole } from "../records/registers";
import { ROLE_PREFIX } from "../records/storage";
import type { CommandContext, Write } from "./act";
import { Pen } from "./Pen";

/** A pen for heard notes, which says whose they are. */
export class NotePen extends Pen<"note"> {
  constructor(ctx: CommandContext, writes: Write[]) {
    super(ctx, "note", writes);
  }

  /** Makes a new note in ink under an id that is given. */
  addAs(id: string, values: Registers["note"]): void {
    this.writeInk(id, { madeBy: this.ctx.by, madeAtMs: this.ctx.nowMs, values });
  }

  /** Says whose a note is (rule D31). */
  say(id: string, whose: NoteRole["whose"]): void {
    const role: SaidRole = { whose, atMs: this.ctx.nowMs };
    this.write(id, ROLE_PREFIX + this.ctx.by, role);
  }
}
