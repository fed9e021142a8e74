"use client";

import { beginningWithin } from "@/lib/client/song/beginningWithin";
import { asHeard } from "@/lib/client/song/noteWords";
import { passageWords } from "@/lib/hearing/notes/passageWords";
import { useDesk } from "./DeskContext";

/** What a teacher would say of the steel's notes in a stretch, in one sentence. */
export function HeardHere({ span }: { span: { startSec: number; endSec: number } }) {
  const { opened } = useDesk();
  const words = passageWords(beginningWithin(opened.song.notes, span).map(asHeard));
  return words.length === 0 ? null : <p>The steel: {words.join("; ")}.</p>;
}
