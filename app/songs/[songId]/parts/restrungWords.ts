import type { Caret } from "@/lib/client/song/partTyping";
import type { Restrung } from "@/lib/client/song/restrungEvents";
import type { Copedent } from "@/lib/instrument/Copedent";

/** What came of drawing events across the strings: whether their notes stayed, or their frets. */
export function restrungWords(
  { edits, keepsNotes, rows }: Restrung,
  { strings }: Copedent,
  from: Caret,
): string {
  const [only] = [...edits.values()];
  const many = rows === 1 || rows === -1 ? "one string" : `${Math.abs(rows)} strings`;
  const way = `${many} ${rows > 0 ? "down" : "up"}`;
  if (edits.size > 1 || !only || only.strings.length > 1 || only.frets)
    return keepsNotes
      ? `The same notes, ${way}, at other frets.`
      : `The same frets, ${way}: other notes. Undo brings them back.`;
  const at = strings.findIndex(({ number }) => number === from.string);
  const string = strings[at + rows]?.number ?? only.strings[0];
  return keepsNotes
    ? `On string ${string}, fret ${only.fret}: the same note.`
    : `On string ${string}, still at fret ${only.fret}: another note. Undo brings it back.`;
}
