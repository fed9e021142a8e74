"use client";

import type { TracedNote } from "@/lib/client/song/noteTrace";
import { HearActs } from "./HearActs";

/** Ways to hear the selected note, and what is picked together with it. */
export function NoteHearing({ note, together }: { note: TracedNote; together: readonly TracedNote[] }) {
  return (
    <>
      <HearActs label="Hear it" what="it" notes={[note]} />
      {together.length > 1 ? (
        <HearActs
          label={together.length === 2 ? "Hear both" : `Hear all ${together.length}`}
          what="them together"
          notes={together}
        />
      ) : null}
    </>
  );
}
