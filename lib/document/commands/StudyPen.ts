import type { CountedThrough, KeptCheck, KeptListening } from "../records/registers";
import { CHECK_PREFIX, CLEAN_PREFIX, LISTEN_PREFIX, THROUGH_PREFIX } from "../records/storage";
import type { CommandContext, Write } from "./act";
import { Pen } from "./Pen";

/** What is counted of a study. */
export type Counted = "through" | "clean";

/** A pen for studies, which also writes what a person did with them; none of that is an edit. */
export class StudyPen extends Pen<"study"> {
  constructor(ctx: CommandContext, writes: Write[]) {
    super(ctx, "study", writes);
  }

  /** Name of the person's register of times through, or of clean takes, on one device. */
  countRegister(counted: Counted, device: string): string {
    return `${counted === "clean" ? CLEAN_PREFIX : THROUGH_PREFIX}${this.ctx.by}.${device}`;
  }

  count(id: string, register: string, counted: CountedThrough): void {
    this.write(id, register, counted);
  }

  keepListening(id: string, kept: KeptListening): void {
    this.write(id, LISTEN_PREFIX + this.ctx.by, kept);
  }

  keepCheck(id: string, kept: KeptCheck): void {
    this.write(id, CHECK_PREFIX + this.ctx.by, kept);
  }
}
