import { questionsOn } from "@/lib/client/questions/openQuestions";
import { setSettled, setThere } from "@/lib/document/commands/questions";
import type { ShownQuestion } from "@/lib/document/records/questions";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { askPanel } from "./askPanel";
import type { Desk } from "./DeskContext";
import { selectedQuestion, selectedSpan } from "./selection";

/** The acts on questions: on the one that is selected. */
export function questionActs(desk: Desk) {
  const { opened, selection, grid, player, page, mayWrite, say } = desk;
  const { questions } = opened.song;
  const { run } = opened.acts;
  const chosen = selectedQuestion(opened.song, selection);
  const select = ({ id }: { id: string }) => desk.select({ kind: "question", id });
  const isOwn = chosen?.by === page.me.id;

  return {
    chosen,
    isOwn,
    /** The one before or after; with none selected, the one at the playhead. */
    step(direction: -1 | 1) {
      const next = chosen
        ? questions[questions.indexOf(chosen) + direction]
        : (questions.find(({ endSec }) => endSec > player.timeSec) ?? questions.at(-1));
      if (next) select(next);
    },
    /** Selects the first that was asked over a stretch. @returns whether there is one */
    chooseOver(stretch: HeardStretch): boolean {
      const [one] = questionsOn(questions, stretch);
      if (one) select(one);
      return one !== undefined;
    },
    /** Takes it in hand, and the playhead to where it lies. */
    go(question: ShownQuestion) {
      select(question);
      player.seek(question.startSec);
    },
    /** Begins a question about what is selected; where nothing is, about the moment of the playhead. */
    ask() {
      if (!mayWrite)
        return say("You may look and listen here, not ask. Ask the book's maker for another role.");
      const { timeSec } = player;
      const { startSec, endSec } = selectedSpan(opened.song, selection, grid) ?? {
        startSec: timeSec,
        endSec: timeSec,
      };
      askPanel.write({ kind: "ask", stretch: { startSec, endSec } });
    },
    reply() {
      if (chosen && mayWrite) askPanel.write({ kind: "reply", id: chosen.id });
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
  };
}
