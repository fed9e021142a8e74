import type { Judgement } from "../metrics/reliability";
import type { FitKind, JudgedFit } from "./judgeFit";

const OF_NOTES: readonly FitKind[] = ["single notes", "pairs", "more notes"];

/** How often the right guess reads higher than all of its near misses, by metric; what none was asked of is missing. */
export function scoreFits(fits: readonly JudgedFit[]): Partial<Record<string, number>> {
  const notes = fits.filter(({ kind }) => OF_NOTES.includes(kind));
  // Single notes and pairs; what it strikes of more notes counts with all notes only.
  const steel = notes.filter(({ role, kind }) => role === "steel" && kind !== "more notes");
  const share = (name: string, of: readonly JudgedFit[], wins: (fit: JudgedFit) => boolean) =>
    of.length === 0 ? {} : { [name]: of.filter(wins).length / of.length };
  const all = ({ winsAll }: JudgedFit) => winsAll;
  const hearable = ({ winsHearable }: JudgedFit) => winsHearable;
  const ofKind = (wanted: FitKind) => fits.filter(({ kind }) => kind === wanted);
  return {
    ...share("fitNotesWin", notes, all),
    ...share("fitNotesWinHearable", notes, hearable),
    ...share("fitSteelWin", steel, all),
    ...share("fitSteelWinHearable", steel, hearable),
    ...share("fitChordWin", ofKind("chords"), all),
    ...share("fitKeyWin", ofKind("keys"), all),
  };
}

/** Everything that fit says with a number, by what it is said of. */
export function judgedFits(fits: readonly JudgedFit[]) {
  const of = (wanted: FitKind): Judgement[] =>
    fits.filter(({ kind }) => kind === wanted).flatMap(({ judgements }) => judgements);
  return {
    fitNotes: of("single notes"),
    fitPairs: of("pairs"),
    fitMoreNotes: of("more notes"),
    fitChords: of("chords"),
    fitKeys: of("keys"),
  };
}
