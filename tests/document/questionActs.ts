import { answer, ask, reword, setSettled, setThere } from "@/lib/document/commands/questions";
import { readSaid } from "@/lib/document/read/readQuestions";
import { readSong } from "@/lib/document/read/readSong";
import type { Dice } from "./dice";
import { type Act, someId } from "./draws";
import type { Replica } from "./replicas";

const WORDS = ["pedals or slide?", " one chord or two? ", "Watch string 5.", "x".repeat(2001), "  "];

const questionId = (on: Replica, dice: Dice) => someId(readSong(on.doc).questions, dice);
const saidId = (on: Replica, dice: Dice) => someId([...readSaid(on.doc).values()], dice);

/** Every command about questions; that of one's own now and then with what another person said. */
export const QUESTION_ACTS: Readonly<Record<string, Act>> = {
  ask: (on, dice) => {
    const startSec = dice.timeSec();
    return ask(on.ctx, { startSec, endSec: dice.of([startSec, dice.timeSec()]), words: dice.of(WORDS) });
  },
  answer: (on, dice) => {
    const stretch = { startSec: dice.timeSec(), endSec: dice.timeSec() };
    return answer(on.ctx, questionId(on, dice), {
      words: dice.of(WORDS),
      stretch: dice.of([stretch, null]),
    });
  },
  reword: (on, dice) => reword(on.ctx, saidId(on, dice), dice.of(WORDS)),
  setThere: (on, dice) => setThere(on.ctx, saidId(on, dice), dice.next() < 0.4),
  setSettled: (on, dice) => setSettled(on.ctx, questionId(on, dice), dice.next() < 0.6),
};
