/**
 * The guess that comes after the one that stands, round and round; the first where what stands is none of them.
 * @param isStanding whether a guess says what the record says now
 * @returns null where there is no other guess
 */
export function nextGuess<G>(guesses: readonly G[], isStanding: (guess: G) => boolean): G | null {
  const now = guesses.findIndex(isStanding);
  const next = guesses[(now + 1) % Math.max(1, guesses.length)];
  return next === undefined || isStanding(next) ? null : next;
}
