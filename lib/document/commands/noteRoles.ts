import { heardId } from "../records/heardId";
import type { NoteRole } from "../records/records";
import { act, type CommandContext, type CommandResult } from "./act";
import { NotePen } from "./NotePen";
import { checkNote, type NoteFields } from "./notes";
import { findStanding } from "./Pen";

/**
 * Says whose notes are, in one act, which makes them ink (rule D31); refused as a whole when one of them cannot be.
 * @returns ids of those of which it was not said before
 */
export function setNoteRole(
  ctx: CommandContext,
  ids: readonly string[],
  whose: NoteRole["whose"],
): CommandResult {
  return act(ctx, (writes) => {
    const pen = new NotePen(ctx, writes);
    return [...new Set(ids)].flatMap((id) => {
      const note = findStanding(pen.sheet, id);
      if (note.record.role?.whose === whose && note.isInk) return [];
      pen.ink(note);
      pen.say(id, whose);
      return [id];
    });
  });
}

/** Writes a note that was heard as the band's into the song as the steel's, in ink (rule D32). */
export function giveToSteel(ctx: CommandContext, heard: NoteFields): CommandResult {
  return act(ctx, (writes) => {
    const pen = new NotePen(ctx, writes);
    const note = checkNote(heard);
    const id = heardId("note", note.startSec, `${Math.round(note.midi)}`);
    const there = pen.sheet.get(id);
    if (there?.standing === "rubbedOut") pen.restore(there);
    if (there) pen.ink(there, note);
    else pen.addAs(id, note);
    pen.say(id, "steel");
    return [id];
  });
}
