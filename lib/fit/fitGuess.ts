import type { HeardStretch } from "@/lib/hearing/Hearing";
import { fromLogOdds } from "@/lib/hearing/logOdds";
import { parseHarte } from "@/lib/theory/harte";
import type { Key } from "@/lib/theory/key";
import { parsePitchName } from "@/lib/theory/spelling";
import type { Midi, Semitones } from "@/lib/units/quantities";
import { chordEvidence } from "./chordEvidence";
import type { ChordFit, FitAnswer, KeyFit, NotesFit } from "./FitAnswer";
import { checkLength, type FitEar, SHORTEST_SEC } from "./FitEar";
import type { FitSound } from "./FitSound";
import { FIT_ODDS } from "./fittedOdds";
import type { Guess, GuessedNote } from "./Guess";
import { type HarmonySpectra, harmonySpectra } from "./HarmonySpectra";
import { keyEvidence } from "./keyEvidence";
import { nearChords, nearKeys } from "./nearHarmony";
import { type Difference, nearMisses } from "./nearMisses";
import { isInReach, PassageFit, REACH_WORDS } from "./PassageFit";
import { type SteadyStretch, steadyStretches } from "./steadyStretches";
import { weigh } from "./weigh";

/** More notes at once are no guess of one player's. */
export const MOST_NOTES = 10;

/**
 * How far a guess agrees with a passage of the record, against the nearest other guesses. A set of notes that glides is
 * held against each stretch in which its pitches stand still, and reads as the worst of them.
 * @param sound the record, or a part of it
 * @param passage in seconds of that sound
 * @throws RangeError for a passage that is too short, notes out of reach, too many, or that glide all the while
 * @throws HarteError for a chord label that cannot be read
 */
export function fitGuess(ear: FitEar, sound: FitSound, passage: HeardStretch, guess: Guess): FitAnswer {
  if (guess.kind === "notes") return fitNotes(ear, sound, passage, guess.notes);
  const spectra = harmonySpectra(ear.look(sound, passage), passage.endSec - passage.startSec);
  return guess.kind === "chord" ? fitChord(spectra, guess.label) : fitKey(spectra, guess.key);
}

function fitNotes(
  ear: FitEar,
  sound: FitSound,
  passage: HeardStretch,
  notes: readonly GuessedNote[],
): NotesFit {
  if (notes.length === 0) throw new RangeError("A guess needs at least one note.");
  if (notes.length > MOST_NOTES)
    throw new RangeError(
      `A guess holds ${MOST_NOTES} notes at most, not ${notes.length}: no player plays more at once.`,
    );
  for (const { midi } of notes)
    if (!Number.isInteger(midi) || !isInReach(midi))
      throw new RangeError(`Notes are whole MIDI numbers ${REACH_WORDS}, not ${midi}.`);
  checkLength(passage);
  const stretches = steadyStretches(passage, notes);
  if (!stretches.some(({ startSec, endSec }) => endSec - startSec >= SHORTEST_SEC))
    throw new RangeError(
      "These notes glide all through the passage: choose a longer one, in which they stand still for a while.",
    );
  const seen = stretches.map((stretch) => new PassageFit(ear.look(sound, stretch), FIT_ODDS));
  const notesMidi = unique(notes.map(({ midi }) => midi));
  const worst = (of: (fit: PassageFit, at: SteadyStretch) => number) =>
    Math.min(...seen.map((fit, i) => of(fit, stretches[i]!)));
  const pitchesAt = (midi: Midi, change: Difference | null, at: SteadyStretch) =>
    movedBy(midi, change, at).map((by) => midi + by);
  const read = (set: readonly Midi[], change: Difference | null) =>
    fromLogOdds(
      worst((fit, at) => {
        const there = unique(set.flatMap((midi) => pitchesAt(midi, change, at)));
        return there.every(isInReach) ? fit.logOdds(there) : Number.NEGATIVE_INFINITY;
      }),
    );
  return {
    kind: "notes",
    notesMidi,
    fit: read(notesMidi, null),
    perNote: notesMidi.map((midi) => ({
      midi,
      fit: fromLogOdds(
        worst((fit, at) => Math.min(...pitchesAt(midi, null, at).map((there) => fit.note(there).sounds))),
      ),
      offCents: seen[0]!.offCents(pitchesAt(midi, null, stretches[0]!)[0]!),
    })),
    nearest: nearMisses(notesMidi, isInReach)
      .map((miss) => ({ ...miss, fit: read(miss.notesMidi, miss.change) }))
      .sort((a, b) => b.fit - a.fit),
  };
}

/**
 * How far the notes that begin on a pitch have glided in a stretch; what stands elsewhere in a near miss glides as the
 * notes that it stands for.
 */
function movedBy(midi: Midi, change: Difference | null, { moved }: SteadyStretch): readonly Semitones[] {
  if (change?.kind !== "moved") return moved.get(midi) ?? STILL;
  const isMoved = change.midi === null || midi === change.midi + change.by;
  return moved.get(isMoved ? midi - change.by : midi) ?? STILL;
}

/** Of a note that the guess has not. */
const STILL: readonly Semitones[] = [0];

function unique(midis: readonly Midi[]): Midi[] {
  return [...new Set(midis)].sort((a, b) => a - b);
}

function fitChord(spectra: HarmonySpectra, label: string): ChordFit {
  const chord = parseHarte(label);
  if (!chord)
    throw new RangeError("That there is no chord (N) cannot be held against the record; name a chord.");
  const read = (of: string) => fromLogOdds(weigh(FIT_ODDS.chord, chordEvidence(spectra, parseHarte(of)!)));
  return {
    kind: "chord",
    label,
    fit: read(label),
    nearest: nearChords(chord)
      .map((near) => ({ label: near, fit: read(near) }))
      .sort((a, b) => b.fit - a.fit),
  };
}

function fitKey(spectra: HarmonySpectra, key: Key): KeyFit {
  const read = ({ tonic, mode }: Key) => {
    const sounding = { tonic: parsePitchName(tonic).pitchClass, mode };
    return fromLogOdds(weigh(FIT_ODDS.key, keyEvidence(spectra, sounding)));
  };
  return {
    kind: "key",
    key,
    fit: read(key),
    nearest: nearKeys(key)
      .map((near) => ({ key: near, fit: read(near) }))
      .sort((a, b) => b.fit - a.fit),
  };
}
