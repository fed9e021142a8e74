import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { findItemSets } from "../quality/itemSets";
import { ownPassage } from "../quality/own/ownPassage";
import { OWN_SONGS } from "../quality/own/songs";
import type { SubjectSet } from "../quality/Subject";
import { besideTranscriber } from "./besideTranscriber";
import { Transcriber } from "./transcriber";

/** A two-beat, a waltz and a shuffle, each with a steel over guitar, bass and drums. */
const SONGS = ["two-beat", "waltz", "shuffle"];

/** The few of our own, every pitched note of which is known; then the sets of LIFTBOOK_EVAL, where that is set. */
function sets(): SubjectSet[] {
  const { own, evaluation } = findItemSets();
  const few = SONGS.map((id) => {
    const subject = own.subjects.find((each) => each.id === id)!;
    const passage = ownPassage(OWN_SONGS.find((each) => each.id === id)!);
    return { ...subject, truth: { ...subject.truth, passage } };
  });
  return [{ name: "own", subjects: few }, ...(process.env.LIFTBOOK_EVAL ? evaluation : [])];
}

/** Prints our notes beside those of a general transcriber: the same records, machine, run and scorer. */
export async function tellNotesBeside(): Promise<void> {
  const { notesEar: ear } = await readLearnedEars();
  if (!ear) throw new Error("No weights of a learned ear are installed, so it hears no notes to measure.");
  const transcriber = await Transcriber.open();
  for (const { name, subjects } of sets()) {
    const told = await besideTranscriber(name, subjects, ear, transcriber, (id) =>
      process.stderr.write(`${name}: ${id}\n`),
    );
    for (const line of told) console.log(line);
  }
}
