/** How loud an input comes in, in a word. */
export type InputLevel = "silent" | "heard" | "too loud";

/** Below this, of full scale, an input is as good as silent: 48 dB (local choice, no source). */
const HARDLY_HEARD = 0.004;
/** From here on it is cut off at the top. */
const CUT_OFF = 0.999;

/** @param peak of the loudest sample, full scale 1 */
export function inputLevel(peak: number): InputLevel {
  if (peak >= CUT_OFF) return "too loud";
  return peak < HARDLY_HEARD ? "silent" : "heard";
}

/** What is to be said of a take whose loudest sample this is; null where there is nothing. */
export function levelCaution(peak: number): string | null {
  switch (inputLevel(peak)) {
    case "silent":
      return "Hardly anything came in: check the input under Listening, and how far it is turned up.";
    case "too loud":
      return "It came in too loud and is cut off at the top: turn the input down a little.";
    case "heard":
      return null;
  }
}
