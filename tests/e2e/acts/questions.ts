import { drill, type GroupProofs } from "./Proof";
import { CHANGE } from "./standings";

/** On what was asked. */
export const QUESTIONS: GroupProofs = {
  "←": drill("twoQuestions", (hand) => hand.page.locator("[data-question]").nth(0).click(), "inHand"),
  "→": drill("firstOfTwo", (hand) => hand.page.locator("[data-question]").nth(1).click(), "inHand"),
  Enter: drill("question", (hand) => hand.press("Reply", "Questions"), "focus"),
  S: drill("question", (hand) => hand.press("Settled", "Questions"), "song"),
  F2: drill("question", (hand) => hand.press("Word it otherwise", "Questions"), "focus"),
  Backspace: drill("question", (hand) => hand.press("Take it back", "Questions"), "song"),
  "↑": drill("question", (hand) => hand.clickUnder(CHANGE, "Sections", 12), "inHand"),
  "↓": drill("question", (hand) => hand.change(CHANGE), "inHand"),
};
