import type { FitAnswer } from "@/lib/fit/FitAnswer";
import { FitEar } from "@/lib/fit/FitEar";
import { fitGuess } from "@/lib/fit/fitGuess";
import type { Guess } from "@/lib/fit/Guess";
import { hearTuning } from "@/lib/hearing/tuning";
import type { Cents, Seconds } from "@/lib/units/quantities";
import { atEarLevel } from "../record/atEarLevel";
import type { RecordStretch } from "../record/RecordStretch";
import type { AskedFit } from "./fitMessages";

/** What one record is looked at with, kept from one order to the next: making it takes longer than a look. */
export class StretchFitter {
  private ear: FitEar | null = null;

  /** The ear for records in a tuning. */
  earFor(tuningCents: Cents): FitEar {
    if (this.ear?.tuningCents !== tuningCents) this.ear = new FitEar(tuningCents);
    return this.ear;
  }

  /**
   * Holds guesses against a stretch, one by one.
   * @param onAnswer told each answer, or the words that say why there is none
   */
  fit(
    stretch: RecordStretch,
    tuningCents: Cents | null,
    asked: readonly AskedFit[],
    onAnswer: (at: number, answer: FitAnswer | string) => void,
  ): void {
    const sound = atEarLevel(stretch);
    const ear = this.earFor(tuningCents ?? hearTuning(sound.signal).cents);
    const beforeSec = stretch.startFrame / stretch.sampleRateHz;
    asked.forEach(({ passage, guess }, at) => {
      const here = { startSec: passage.startSec - beforeSec, endSec: passage.endSec - beforeSec };
      onAnswer(
        at,
        answerOrWords(() => fitGuess(ear, sound, here, earlier(guess, beforeSec))),
      );
    });
  }
}

function answerOrWords(answer: () => FitAnswer): FitAnswer | string {
  try {
    return answer();
  } catch (fault) {
    if (fault instanceof Error) return fault.message;
    throw fault;
  }
}

function earlier(guess: Guess, bySec: Seconds): Guess {
  if (guess.kind !== "notes") return guess;
  const notes = guess.notes.map(({ midi, glides = [] }) => ({
    midi,
    glides: glides.map((glide) => ({ ...glide, atSec: glide.atSec - bySec })),
  }));
  return { kind: "notes", notes };
}
