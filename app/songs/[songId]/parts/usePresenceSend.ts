import { useEffect } from "react";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import type { Presence } from "@/lib/contracts/sync";
import type { Desk } from "./DeskContext";
import {
  chosenEvents,
  selectedChange,
  selectedHeard,
  selectedNote,
  selectedQuestion,
  selectedSection,
} from "./selection";

/** Shows the others where one is and what one has selected. */
export function usePresenceSend(desk: Desk): void {
  const { opened, selection, page, player } = desk;
  const { isPlaying } = usePlayerState(player);
  const { awareness } = opened.connection;
  const cursor = cursorOf(desk);
  const { timeSec = null, lane = null, recordId = null, partId } = cursor ?? {};
  useEffect(() => {
    const at: Presence["cursor"] =
      timeSec === null || lane === null ? null : { timeSec, lane, recordId, partId };
    const presence: Presence = {
      user: { id: page.me.id, name: page.me.name },
      cursor: at,
      playing: isPlaying,
    };
    awareness.setLocalState({ ...presence });
  }, [awareness, page.me.id, page.me.name, isPlaying, timeSec, lane, recordId, partId]);

  function cursorOf({ opened: { song } }: Desk): Presence["cursor"] {
    const change = selectedChange(song, selection);
    if (change) return { timeSec: change.startSec, lane: "changes", recordId: change.id };
    const note = selectedNote(song, selection);
    if (note) return { timeSec: note.startSec, lane: "bass", recordId: note.id };
    const heard = selectedHeard(song, selection);
    if (heard) return { timeSec: heard.startSec, lane: "notes", recordId: heard.id };
    if (selection?.kind === "band")
      return { timeSec: selection.note.startSec, lane: "notes", recordId: null };
    const section = selectedSection(song, selection);
    if (section) return { timeSec: section.startSec, lane: "sections", recordId: section.id };
    const question = selectedQuestion(song, selection);
    if (question) return { timeSec: question.startSec, lane: "asked", recordId: question.id };
    if (selection?.kind === "caret" || selection?.kind === "events")
      return {
        timeSec: selection.caret.timeSec,
        lane: "part",
        recordId: chosenEvents(song, selection)[0]?.id ?? null,
        partId: desk.parts.atHand.id,
      };
    if (selection?.kind === "span") return { timeSec: selection.startSec, lane: "record", recordId: null };
    return null;
  }
}
