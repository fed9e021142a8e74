import type { CountedThrough, KeptCheck, KeptListening } from "../records/registers";
import { CHECK_PREFIX, LISTEN_PREFIX, THROUGH_PREFIX } from "../records/storage";
import type { CommandContext, Write } from "./act";
import { Pen } from "./Pen";

/** A pen for studies, which also writes what a person did with them; none of that is an edit. */
export class StudyPen extends Pen<"study"> {
  constructor(ctx: CommandContext, writes: Write[]) {
    super(ctx, "study", writes);
  }

  /** Name of the person's register of times through on one device. */
  throughRegister(device: string): string {
    return `${THROUGH_PREFIX}${this.ctx.by}.${device}`;
  }

  count(id: string, device: string, counted: CountedThrough): void {
    this.write(id, this.throughRegister(device), counted);
  }

  keepListening(id: string, kept: KeptListening): void {
    this.write(id, LISTEN_PREFIX + this.ctx.by, kept);
  }

  keepCheck(id: string, kept: KeptCheck): void {
    this.write(id, CHECK_PREFIX + this.ctx.by, kept);
  }
}
