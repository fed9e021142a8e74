import { isGlides, isNotePitch } from "../records/guards";
import type { Registers } from "../records/registers";
import { act, type CommandContext, type CommandResult } from "./act";
import { given } from "./given";
import { ink } from "./ink";
import { findStanding, Pen } from "./Pen";
import { Refused } from "./refusals";
import { rubOut } from "./rubOut";
import { checkStretch } from "./stretch";

/** Everything a person says of a heard note. */
export type NoteFields = Registers["note"];

/** Settles heard notes as they are seen, in one act; refused as a whole when one of them cannot be. */
export function inkNotes(ctx: CommandContext, ids: readonly string[]): CommandResult {
  return ink(ctx, "note", ids);
}

/** Changes pitch, ends or glides of a note, which makes it ink. Glides past a moved end are kept, unseen (rule D27). */
export function editNote(ctx: CommandContext, id: string, fields: Partial<NoteFields>): CommandResult {
  return act(ctx, (writes) => {
    const pen = new Pen(ctx, "note", writes);
    const note = findStanding(pen.sheet, id);
    const { startSec, endSec } = note.record;
    return pen.ink(note, checkNote({ ...note.values, startSec, endSec, ...given(fields) }));
  });
}

/** Writes a new note in ink, beside whatever sounds there. */
export function addNote(ctx: CommandContext, note: NoteFields): CommandResult {
  return act(ctx, (writes) => [new Pen(ctx, "note", writes).add(checkNote(note))]);
}

/** Rubs a note out; {@link restore} puts it back. */
export function rubOutNote(ctx: CommandContext, id: string): CommandResult {
  return rubOut(ctx, "note", id);
}

/** Refuses a note whose times, pitch or glides are none. */
export function checkNote(note: NoteFields): NoteFields {
  const { midi, glides } = note;
  const { startSec, endSec } = checkStretch(note);
  if (!isNotePitch(midi)) throw new Refused("badNote");
  if (!isGlides(glides)) throw new Refused("badGlides");
  return { startSec, endSec, midi, glides: structuredClone(glides) };
}
