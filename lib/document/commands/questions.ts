import type { HeardStretch } from "@/lib/hearing/Hearing";
import { readQuestions, readSaid, type Said } from "../read/readQuestions";
import { isTime } from "../records/guards";
import { isWords } from "../records/questionGuards";
import {
  type KeptSaying,
  type KeptSettled,
  type KeptThere,
  type KeptWords,
  QUESTIONS,
  SAID,
  SAID_PREFIX,
  SETTLED_REGISTER,
  type ShownQuestion,
  THERE_PREFIX,
  WORDS_PREFIX,
} from "../records/questions";
import { isRecordId, registerKey } from "../records/storage";
import { act, type CommandContext, type CommandResult, type Write } from "./act";
import { Refused } from "./refusals";

/** What a person asks, and where; a moment, with both ends alike, is allowed. */
export interface AskedFields extends HeardStretch {
  words: string;
}

/** What a person answers, and where it is to be heard; null for where the question lies. */
export interface AnsweredFields {
  words: string;
  stretch: HeardStretch | null;
}

/** Asks something at a stretch of the record (rule D59). The id that comes back is the question's. */
export function ask(ctx: CommandContext, { words, startSec, endSec }: AskedFields): CommandResult {
  return act(ctx, (writes) => {
    const stretch = checkWhere({ startSec, endSec });
    return [say(ctx, writes, { words: checkWords(words), question: null, stretch })];
  });
}

/** Answers a question that is shown, settled or not. The id that comes back is the answer's. */
export function answer(ctx: CommandContext, question: string, fields: AnsweredFields): CommandResult {
  return act(ctx, (writes) => {
    findQuestion(ctx, question);
    const stretch = fields.stretch && checkWhere(fields.stretch);
    return [say(ctx, writes, { words: checkWords(fields.words), question, stretch })];
  });
}

/** Words a question or an answer of one's own otherwise (rule D60). */
export function reword(ctx: CommandContext, id: string, words: string): CommandResult {
  return act(ctx, (writes) => {
    const own = findOwn(ctx, id);
    if (!own.isThere) throw new Refused("takenBack");
    const value: KeptWords = { words: checkWords(words), atMs: ctx.nowMs };
    if (value.words === own.words) return [];
    writes.push({ kind: QUESTIONS, key: registerKey(id, WORDS_PREFIX + ctx.by), value });
    return [id];
  });
}

/** Takes a question or an answer of one's own back, or puts it back; others' answers stay either way (rule D60). */
export function setThere(ctx: CommandContext, id: string, isThere: boolean): CommandResult {
  return act(ctx, (writes) => {
    const own = findOwn(ctx, id);
    if (own.question !== null && isThere) findQuestion(ctx, own.question);
    if (own.isThere === isThere) return [];
    writes.push(thereWrite(ctx, id, isThere));
    return [id];
  });
}

/** Settles a question, with the answers that stand in it now, or opens it again (rule D61). */
export function setSettled(ctx: CommandContext, id: string, isSettled: boolean): CommandResult {
  return act(ctx, (writes) => {
    const { settled, answers } = findQuestion(ctx, id);
    const isAllSeen = answers.every(({ isSinceSettled }) => !isSinceSettled);
    if (isSettled === (settled !== null) && isAllSeen) return [];
    const value: KeptSettled = {
      isSettled,
      by: ctx.by,
      atMs: ctx.nowMs,
      seen: isSettled ? answers.map((each) => each.id) : [],
    };
    writes.push({ kind: QUESTIONS, key: registerKey(id, SETTLED_REGISTER), value });
    return [id];
  });
}

function say(ctx: CommandContext, writes: Write[], said: Omit<KeptSaying, "atMs">): string {
  const id = ctx.newId();
  if (!isRecordId(id) || readSaid(ctx.doc).has(id)) throw new Refused("badId");
  const value: KeptSaying = { ...said, atMs: ctx.nowMs };
  writes.push({ kind: SAID, key: registerKey(id, SAID_PREFIX + ctx.by), value }, thereWrite(ctx, id, true));
  return id;
}

function thereWrite({ by, nowMs: atMs }: CommandContext, id: string, isThere: boolean): Write {
  const value: KeptThere = { isThere, atMs };
  return { kind: QUESTIONS, key: registerKey(id, THERE_PREFIX + by), value };
}

function findQuestion(ctx: CommandContext, id: string): ShownQuestion {
  const question = readQuestions(ctx.doc).find((each) => each.id === id);
  if (!question) throw new Refused("unknownQuestion");
  return question;
}

function findOwn(ctx: CommandContext, id: string): Said {
  const said = readSaid(ctx.doc).get(id);
  if (!said) throw new Refused("unknownQuestion");
  if (said.by !== ctx.by) throw new Refused("othersWords");
  return said;
}

function checkWhere({ startSec, endSec }: HeardStretch): HeardStretch {
  if (!isTime(startSec) || !isTime(endSec)) throw new Refused("badTime");
  return { startSec: Math.min(startSec, endSec), endSec: Math.max(startSec, endSec) };
}

function checkWords(words: string): string {
  const trimmed = typeof words === "string" ? words.trim() : words;
  if (!isWords(trimmed)) throw new Refused(trimmed === "" ? "noWords" : "badWords");
  return trimmed;
}
