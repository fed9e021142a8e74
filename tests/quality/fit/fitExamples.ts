import type { FitEar } from "@/lib/fit/FitEar";
import type { FitSound } from "@/lib/fit/FitSound";
import type { NoteEvidence } from "@/lib/fit/noteEvidence";
import { noteEvidence } from "@/lib/fit/noteEvidence";
import type { PassageSpectra } from "@/lib/fit/PassageSpectra";
import { DICTIONARY, REACH } from "@/lib/fit/parameters";
import type { Midi } from "@/lib/units/quantities";
import type { FitEvent } from "./fitEvents";

/** An event with what was seen of its passage. */
export interface FitExample {
  /** Of the record. */
  id: string;
  event: FitEvent;
  passage: PassageSpectra;
  evidence: ReadonlyMap<Midi, NoteEvidence>;
}

/** Above this share of the passage a note sounds in it; up to the other it does not; between them nothing is said. */
export const SOUNDS_FROM = 0.5;
const SILENT_TO = 0.05;
/** Semitones by which near misses stand off. */
const NEAR = [0, 1, 2, 12];
/** Of the notes farther off, one in so many teaches. */
const FAR_EVERY = 3;

/** What an example teaches about single notes. */
export interface TaughtNote {
  midi: Midi;
  evidence: NoteEvidence;
  sounds: boolean;
}

export function fitExample(id: string, ear: FitEar, sound: FitSound, event: FitEvent): FitExample {
  const passage = ear.look(sound, event);
  const evidence = new Map<Midi, NoteEvidence>();
  const from = Math.max(DICTIONARY.lowestMidi, event.notesMidi[0]! - REACH - 12);
  const to = Math.min(DICTIONARY.highestMidi, event.notesMidi.at(-1)! + REACH + 12);
  for (let midi = from; midi <= to; midi++) evidence.set(midi, noteEvidence(passage, midi));
  return { id, event, passage, evidence };
}

export function taughtNotes({ event, evidence }: FitExample): TaughtNote[] {
  const taught: TaughtNote[] = [];
  for (const [midi, own] of evidence) {
    const share = event.soundingShare.get(midi) ?? 0;
    if (share > SILENT_TO && share <= SOUNDS_FROM) continue;
    const off = Math.min(...event.notesMidi.map((note) => Math.abs(note - midi)));
    if (!NEAR.includes(off) && (off > REACH || midi % FAR_EVERY !== 0)) continue;
    taught.push({ midi, evidence: own, sounds: share > SOUNDS_FROM });
  }
  return taught;
}
