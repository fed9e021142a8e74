import type { Midi } from "@/lib/units/quantities";
import type { PassageFit } from "../PassageFit";
import { DICTIONARY } from "../parameters";
import { NOTES } from "./takeParameters";

/** Every pitch that can be weighed. */
const WEIGHED: readonly Midi[] = Array.from(
  { length: DICTIONARY.highestMidi - DICTIONARY.lowestMidi + 1 },
  (_, n) => DICTIONARY.lowestMidi + n,
);

/** How wanted notes read where something was picked, and what reads better, if anything does. */
export interface NotesReading {
  logOdds: number;
  /** Rising; null where the wanted notes stand. */
  instead: Midi[] | null;
}

/**
 * Holds wanted notes against what was picked: do they read well, or does a set that differs in one note read better by a
 * margin? Such sets are made of what is heard: one of the notes left out, one more of those that sound as clearly,
 * one in place of another, or it alone.
 * @param wanted rising, each once
 * @param ringing what the part lets ring on meanwhile, which speaks neither for nor against
 */
export function readNotes(fit: PassageFit, wanted: readonly Midi[], ringing: readonly Midi[]): NotesReading {
  const own = fit.logOdds(wanted);
  const clear = clearNotes(fit).filter((midi) => !wanted.includes(midi) && !ringing.includes(midi));
  const loudest = Math.max(...[...wanted, ...clear].map((midi) => fit.note(midi).level));
  const absent = wanted.filter((midi) => {
    const { sounds, level } = fit.note(midi);
    return sounds < NOTES.absentUnder || level < loudest - NOTES.absentQuieterBy;
  });
  const without = (left: Midi) => wanted.filter((other) => other !== left);
  const sets = [
    ...(wanted.length > 1 ? absent.map(without) : []),
    ...clear.map((midi) => [...wanted, midi]),
    ...absent.flatMap((left) => clear.map((midi) => [...without(left), midi])),
    ...(absent.length > 0 ? [...clear.map((midi) => [midi]), clear] : []),
  ];
  let best: { notes: Midi[]; logOdds: number } | null = null;
  for (const set of sets) {
    if (set.length === 0) continue;
    const notes = [...new Set(set)].sort((a, b) => a - b);
    const logOdds = fit.logOdds(notes);
    if (!best || logOdds > best.logOdds) best = { notes, logOdds };
  }
  const isBetter = best !== null && best.logOdds - own >= NOTES.betterBy;
  return { logOdds: own, instead: best && isBetter ? best.notes : null };
}

/** Notes that sound for sure, and about as loud as the loudest of them; rising. */
export function clearNotes(fit: PassageFit): Midi[] {
  const sure = WEIGHED.map((midi) => fit.note(midi)).filter(({ sounds }) => sounds >= NOTES.clearNats);
  const loudest = Math.max(...sure.map(({ level }) => level));
  return sure.filter(({ level }) => level >= loudest - NOTES.quieterBy).map(({ midi }) => midi);
}
