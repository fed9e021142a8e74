import type { ChordGuess, HeardChord, HeardHome, KeyGuess } from "@/lib/hearing/Hearing";
import { type ChordMetric, compareChords } from "./metrics/chordComparison";
import type { Share } from "./metrics/chordRecall";
import type { ChordSpan } from "./metrics/chordSpans";
import { readableLabel } from "./metrics/harteEncoding";
import type { HomeSpan } from "./metrics/homesScore";
import { weightedKeyScore } from "./metrics/keyScore";
import { piecesOf } from "./metrics/pieces";

/** How long a chord is right by the metric within the first guess and the two next. */
export function chordsWithinThree(
  reference: readonly ChordSpan[],
  chords: readonly HeardChord[],
  metric: ChordMetric,
): Share {
  const right = (wanted: ChordSpan, guess: ChordGuess) =>
    compareChords(wanted.label, readableLabel(guess.label))[metric] === true;
  const speaks = (wanted: ChordSpan) => compareChords(wanted.label, "N")[metric] !== null;
  return shareOf(reference, chords, speaks, right);
}

/** How long the home is right within the first guess and the two next; as far as the record is heard. */
export function homeWithinThree(reference: readonly HomeSpan[], homes: readonly HeardHome[]): Share {
  const right = (wanted: HomeSpan, guess: KeyGuess) => weightedKeyScore(wanted, guess) === 1;
  const endSec = homes.at(-1)?.endSec ?? reference.at(-1)!.endSec;
  const within = reference.map((home) => ({ ...home, endSec: Math.min(home.endSec, endSec) }));
  return shareOf(within, homes, () => true, right);
}

function shareOf<
  R extends { startSec: number; endSec: number },
  G,
  E extends G & { startSec: number; endSec: number; nextBest: G[] },
>(
  reference: readonly R[],
  estimate: readonly E[],
  speaks: (wanted: R) => boolean,
  right: (wanted: R, guess: G) => boolean,
): Share {
  const share: Share = { rightSec: 0, scoredSec: 0 };
  for (const { startSec, endSec, reference: wanted, estimate: given } of piecesOf(reference, estimate)) {
    if (!speaks(wanted)) continue;
    share.scoredSec += endSec - startSec;
    const guesses: G[] = given ? [given, ...given.nextBest.slice(0, 2)] : [];
    if (guesses.some((guess) => right(wanted, guess))) share.rightSec += endSec - startSec;
  }
  return share;
}
