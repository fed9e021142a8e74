import type { Desk } from "./DeskContext";
import type { QuestionActs, questionActs } from "./questionActs";

let make: typeof questionActs | null = null;

/** Fetches what writes questions. */
export async function fetchQuestionActs(): Promise<void> {
  make ??= (await import("./questionActs")).questionActs;
}

/** Does an act on what was asked, on what is selected by then, as soon as it has come. */
export async function withQuestions(desk: Desk, act: (acts: QuestionActs) => void): Promise<void> {
  try {
    await fetchQuestionActs();
  } catch {
    desk.say("That could not be fetched, so nothing was changed. Check the connection and try again.");
    return;
  }
  if (make) act(make(desk.now()));
}
