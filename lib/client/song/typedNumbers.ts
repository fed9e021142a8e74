/** A number of home that was typed where home is not seen; the message is in words for people. */
export class UnseenHomeError extends Error {
  override readonly name = "UnseenHomeError";
  constructor() {
    super("Home is not seen here, so numbers of it cannot be read. Write letters.");
  }
}

/**
 * Whether there are numbers of home in what was typed. A number behind a letter belongs to the chord or the octave, and in a
 * whole label, as in `D:7/b7`, it is counted from the chord.
 * @param typed one chord, or notes, with plain signs
 */
export function hasNumbers(typed: string): boolean {
  return !typed.includes(":") && /(^|[\s/])[b#]?[1-7]/.test(typed);
}

/**
 * Refuses numbers of a home that is not seen: what was typed would mean something else.
 * @param typed see {@link hasNumbers}
 * @throws UnseenHomeError
 */
export function refuseNumbers(typed: string): void {
  if (hasNumbers(typed)) throw new UnseenHomeError();
}
