import { setSettled, setThere } from "@/lib/document/commands/questions";
import type { ShownQuestion } from "@/lib/document/records/questions";
import { askedActs } from "./askedActs";
import { askPanel } from "./askPanel";
import type { Desk } from "./DeskContext";

/** The acts on questions: on the one that is selected. */
export function questionActs(desk: Desk) {
  const { opened, player, page, mayWrite, say } = desk;
  const { run } = opened.acts;
  const asked = askedActs(desk);
  const { chosen, select } = asked;
  const isOwn = chosen?.by === page.me.id;

  return {
    ...asked,
    isOwn,
    /** Takes it in hand, and the playhead to where it lies. */
    go(question: ShownQuestion) {
      select(question);
      player.seek(question.startSec);
    },
    reword() {
      if (!chosen || !mayWrite) return;
      if (isOwn && !chosen.isTakenBack) askPanel.write({ kind: "reword", id: chosen.id });
      else say("Only who asked can word it otherwise. Enter answers it.");
    },
    /** Settles it; a settled one is opened again, unless answers came since: then these are settled too. */
    settle() {
      if (!chosen) return;
      const isSettled = !chosen.settled || chosen.answers.some(({ isSinceSettled }) => isSinceSettled);
      if (run((ctx) => setSettled(ctx, chosen.id, isSettled))) say(isSettled ? "Settled." : "Open again.");
    },
    takeBack() {
      if (!chosen) return;
      if (run((ctx) => setThere(ctx, chosen.id, false)))
        say('Your question is taken back; Undo or "Put back" brings it back.');
    },
    /** Puts back a question or an answer of one's own. */
    putBack: (id: string) => run((ctx) => setThere(ctx, id, true)),
  };
}
