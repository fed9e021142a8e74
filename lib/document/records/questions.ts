import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { EpochMs } from "@/lib/units/quantities";

/** The map of what became of questions and answers since they were said, laid out as a kind's. */
export const QUESTIONS = "question";
/** The map of what was asked and answered, each once, laid out alike; undo leaves it (rule D59). */
export const SAID = "said";

/** In {@link SAID}: after it stands the person who asked or answered. */
export const SAID_PREFIX = "by.";
/** In {@link QUESTIONS}: after each of these stands the person who asked or answered; nobody else's count (rule D60). */
export const THERE_PREFIX = "there.";
export const WORDS_PREFIX = "words.";
/** In {@link QUESTIONS}: whether a question is settled, which anybody may say (rule D61). */
export const SETTLED_REGISTER = "settled";

/** Signs of a question or an answer, at most. */
export const LONGEST_WORDS = 2_000;

/** What was asked or answered, as it is written, once. */
export interface KeptSaying {
  atMs: EpochMs;
  words: string;
  /** The question that it answers; null for a question. */
  question: string | null;
  /** Where; of an answer null where it says nothing of a stretch of its own. A moment has both ends alike. */
  stretch: HeardStretch | null;
}

/** That its author took it back, or put it back. */
export interface KeptThere {
  isThere: boolean;
  atMs: EpochMs;
}

/** How its author worded it since. */
export interface KeptWords {
  words: string;
  atMs: EpochMs;
}

export interface KeptSettled {
  isSettled: boolean;
  by: string;
  atMs: EpochMs;
  /** Ids of the answers that stood there for who settled it. */
  seen: string[];
}

/** What a question and an answer have in common, as everyone sees it. */
interface Saying {
  id: string;
  by: string;
  atMs: EpochMs;
  words: string;
  /** When its author worded it otherwise; null where it stands as it was said. */
  rewordedAtMs: EpochMs | null;
}

export interface ShownAnswer extends Saying {
  /** Where it says to listen; at least 20 ms long, null where it does not say. */
  stretch: HeardStretch | null;
  /** Whether it came after its question had been settled, or unseen by who settled it. */
  isSinceSettled: boolean;
}

/** A question as everyone sees it, at least 20 ms long. */
export interface ShownQuestion extends Saying, HeardStretch {
  /** Whether its author took it back while others' answers stand in it: then it has no words. */
  isTakenBack: boolean;
  /** By whom and when; null while it is open. */
  settled: { by: string; atMs: EpochMs } | null;
  /** In order of time said, then id. */
  answers: ShownAnswer[];
}
