import { laterActs } from "./laterActs";

/** What writes questions. */
export const { fetch: fetchQuestionActs, with: withQuestions } = laterActs(
  () => import("./questionActs").then(({ questionActs }) => questionActs),
  "What writes questions",
);
