import { questionsOn } from "@/lib/client/questions/openQuestions";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { askPanel } from "./askPanel";
import type { Desk } from "./DeskContext";
import { selectedQuestion, selectedSpan } from "./selection";

/** The ways to what was asked, and to asking; what writes is fetched later (questionActs.ts). */
export function askedActs(desk: Desk) {
  const { opened, selection, grid, player, mayWrite, say } = desk;
  const { questions } = opened.song;
  const chosen = selectedQuestion(opened.song, selection);
  const select = ({ id }: { id: string }) => desk.select({ kind: "question", id });

  return {
    chosen,
    select,
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
  };
}
