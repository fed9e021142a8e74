import { describe, expect, it } from "vitest";
import { openCount, openQuestions, questionsOn } from "@/lib/client/questions/openQuestions";
import {
  answersWords,
  firstWords,
  openWords,
  questionLine,
  stretchTimes,
} from "@/lib/client/questions/questionWords";
import { question, shownAnswer } from "./question";

const settled = { by: "marlow", atMs: 3 };
const nameOf = (id: string) => (id === "ines" ? "Ines" : "Marlow");

describe("words about questions", () => {
  it("tell a stretch by its times to a tenth, and a moment by one", () => {
    expect(stretchTimes({ startSec: 6.9, endSec: 8.2 })).toBe("0:06.9–0:08.2");
    expect(stretchTimes({ startSec: 6.94, endSec: 6.96 })).toBe("0:06.9");
    expect(stretchTimes({ startSec: 59.97, endSec: 61 })).toBe("1:00.0–1:01.0");
  });

  it("take the first line of a question, cut where it is long, and say where it was taken back", () => {
    expect(firstWords(question())).toBe("Pedals or slide?");
    expect(firstWords(question({ words: "One chord?\nOr two?" }))).toBe("One chord?…");
    expect(firstWords(question({ words: "x".repeat(80) }))).toBe(`${"x".repeat(60)}…`);
    expect(firstWords(question({ words: "", isTakenBack: true }))).toBe("(taken back)");
  });

  it("say in one line whether it is open, whose it is, where, and how many answers it has", () => {
    expect(questionLine(question(), null, nameOf)).toBe(
      "Open question of Ines, 0:06.9–0:08.2: Pedals or slide?, no answer yet",
    );
    expect(questionLine(question({ settled, answers: [shownAnswer()] }), null, nameOf)).toBe(
      "Settled question of Ines, 0:06.9–0:08.2: Pedals or slide?, 1 answer",
    );
    const since = [shownAnswer(), shownAnswer({ id: "b", isSinceSettled: true })];
    expect(answersWords(since)).toBe("2 answers, 1 since it was settled");
  });

  it("count what is open", () => {
    expect(openWords([question(), question({ settled })], "on this passage")).toBe("1 open on this passage");
    expect(openWords([], "in this song")).toBe("Nothing open in this song");
  });
});

describe("questions on a stretch", () => {
  const all = [
    question({ id: "a", startSec: 0, endSec: 2 }),
    question({ id: "b", startSec: 2, endSec: 4, settled }),
    question({ id: "c", startSec: 3, endSec: 3.02 }),
  ];
  it("are those that lie on it, moments too, and not those that touch it", () => {
    expect(questionsOn(all, { startSec: 2, endSec: 4 }).map(({ id }) => id)).toEqual(["b", "c"]);
    expect(openCount(all, { startSec: 2, endSec: 4 })).toBe(1);
    expect(openCount(all, { startSec: 0, endSec: 9 })).toBe(2);
  });
  it("that are open are the same list for the same questions", () => {
    expect(openQuestions(all)).toBe(openQuestions(all));
  });
});
