import { apartSec, isOutOfTime } from "@/lib/fit/takes/sumUp";
import type { StrokeJudged } from "@/lib/fit/takes/TakeJudged";
import type { Seconds } from "@/lib/units/quantities";

/** What was heard of a stroke, as a mark tells it: a sign, a word, and which of the four kinds it is. */
export interface StrokeWord {
  sign: string;
  word: string;
  kind: "found" | "off" | "other" | "missed";
}

/** @param medianLateSec how late the take is as a whole: a stroke is late or early beside that, as `takeWords.ts` tells it */
export function strokeWords(
  { verdict, lateSec, glides }: StrokeJudged,
  medianLateSec: Seconds | null,
): StrokeWord {
  if (verdict === "missed") return { sign: "×", word: "missed", kind: "missed" };
  if (verdict === "other") return { sign: "≠", word: "other note", kind: "other" };
  if (glides.some(({ hasArrived }) => !hasArrived)) return { sign: "≠", word: "not arrived", kind: "other" };
  const apart = apartSec(lateSec, medianLateSec);
  if (!isOutOfTime(apart)) return { sign: "✓", word: "found", kind: "found" };
  const ms = Math.round(Math.abs(apart) * 1000);
  return apart > 0
    ? { sign: "›", word: `${ms} ms late`, kind: "off" }
    : { sign: "‹", word: `${ms} ms early`, kind: "off" };
}
