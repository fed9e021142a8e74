import { sureText } from "@/lib/client/format/format";
import { isOfRecord, isOfSteel, type ListedNote } from "@/lib/client/song/heardList";

/** Whose note it is, and who says so: "The steel's, 83 % sure", "The band's, says Ines". */
export function whoseWords(note: ListedNote, nameOf: (userId: string) => string): string {
  const whose = isOfSteel(note) ? "The steel's" : "The band's";
  if (isOfRecord(note)) {
    if (note.role) return `${whose}, ${sayWords(nameOf(note.role.by))}`;
    return note.steel === null ? whose : `${whose}, ${sureText(note.steel)} sure`;
  }
  return `${whose}, ${sureText(1 - note.steel)} sure; the steel's, ${sureText(note.steel)}`;
}

/** The same as short as a cell of a list: "steel, 83 %", "band, says Ines". */
export function whoseCell(note: ListedNote, nameOf: (userId: string) => string): string {
  const whose = isOfSteel(note) ? "steel" : "band";
  if (isOfRecord(note) && note.role) return `${whose}, ${sayWords(nameOf(note.role.by))}`;
  const steel = note.steel === null ? null : isOfSteel(note) ? note.steel : 1 - note.steel;
  return steel === null ? whose : `${whose}, ${sureText(steel)}`;
}

function sayWords(name: string): string {
  return name === "you" ? "you say" : `says ${name}`;
}
