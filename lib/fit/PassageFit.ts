import { midiToName } from "@/lib/theory/spelling";
import type { Midi } from "@/lib/units/quantities";
import { belongingEvidence, type WeighedNote } from "./belonging";
import type { FitOdds } from "./FitOdds";
import { type NoteEvidence, noteEvidence } from "./noteEvidence";
import type { PassageSpectra } from "./PassageSpectra";
import { DICTIONARY, LEAST_LEFT_OUT, LEFT_OUT_FROM, REACH, SUREST_NATS } from "./parameters";
import { logProbability, weigh } from "./weigh";

const { lowestMidi, highestMidi } = DICTIONARY;
/** Which pitches can be weighed, as in `from 28 (E1) to 96 (C7)`. */
export const REACH_WORDS = `from ${lowestMidi} (${midiToName(lowestMidi)}) to ${highestMidi} (${midiToName(highestMidi)})`;

/** Whether a pitch can be weighed at all. */
export function isInReach(midi: Midi): boolean {
  return midi >= lowestMidi && midi <= highestMidi;
}

/**
 * How well sets of notes fit a passage. A set fits where each of its notes sounds, where they belong together, and where
 * nothing that belongs to them is left out; all three are logistic models (D. R. Cox 1958) over spectral evidence, and a
 * fourth makes one probability of them.
 */
export class PassageFit {
  /**
   * @param known notes that were weighed before
   * @param evidences of notes, as far as it is known
   */
  constructor(
    private readonly passage: PassageSpectra,
    private readonly odds: FitOdds,
    private readonly known = new Map<Midi, WeighedNote>(),
    private readonly evidences = new Map<Midi, NoteEvidence>(),
  ) {}

  /** The same passage by other models of sets; single notes stay as they were weighed. */
  with(odds: FitOdds): PassageFit {
    return new PassageFit(this.passage, odds, this.known, this.evidences);
  }

  /** The evidence of one note. */
  evidence(midi: Midi): NoteEvidence {
    let evidence = this.evidences.get(midi);
    if (!evidence) {
      evidence = noteEvidence(this.passage, midi);
      this.evidences.set(midi, evidence);
    }
    return evidence;
  }

  /** A note as it is weighed. */
  note(midi: Midi): WeighedNote {
    const known = this.known.get(midi);
    if (known) return known;
    const evidence = this.evidence(midi);
    const sounds = this.passage.isSilent ? -SUREST_NATS : weigh(this.odds.sounds, evidence);
    const note: WeighedNote = {
      midi,
      sounds: Math.max(-SUREST_NATS, Math.min(SUREST_NATS, sounds)),
      level: evidence.level!,
      heard: evidence.heard!,
      rise: evidence.rise!,
      riseAtSec: this.passage.rise(midi).atSec,
      balance: this.passage.balance(midi),
    };
    this.known.set(midi, note);
    return note;
  }

  offCents(midi: Midi): number {
    return this.passage.offCents(midi);
  }

  /** Log odds that a note belongs with others. */
  belongs(midi: Midi, others: readonly Midi[]): number {
    return weigh(
      this.odds.belongs,
      belongingEvidence(
        this.note(midi),
        others.map((other) => this.note(other)),
      ),
    );
  }

  /**
   * The evidence of a set of notes as a whole.
   * @param notesMidi at least one, each once
   */
  setEvidence(notesMidi: readonly Midi[]): Record<string, number> {
    const sounding = notesMidi.map((midi) => this.note(midi).sounds);
    const count = notesMidi.length;
    const belonging =
      count > 1
        ? notesMidi.map((midi) =>
            this.belongs(
              midi,
              notesMidi.filter((other) => other !== midi),
            ),
          )
        : [];
    const leftOut = this.mostLeftOut(notesMidi);
    return {
      allSound: sum(sounding.map(logProbability)),
      leastSounds: Math.min(...sounding),
      allBelong: sum(belonging.map(logProbability)),
      leastBelongs: count > 1 ? Math.min(...belonging) : 0,
      leftOut,
      nothingLeftOut: Math.log1p(-Math.min(0.999, Math.exp(leftOut))),
      pair: Number(count === 2),
      more: Number(count > 2),
    };
  }

  /** Log odds that a set of notes is what one player plays here. */
  logOdds(notesMidi: readonly Midi[]): number {
    if (this.passage.isSilent) return -SUREST_NATS;
    return weigh(this.odds.set, this.setEvidence(notesMidi));
  }

  /** Log probability of the likeliest note that sounds and belongs with some, and is not among them. */
  private mostLeftOut(notesMidi: readonly Midi[]): number {
    let most = LEAST_LEFT_OUT;
    const from = Math.max(lowestMidi, Math.min(...notesMidi) - REACH);
    const to = Math.min(highestMidi, Math.max(...notesMidi) + REACH);
    for (let midi = from; midi <= to; midi++) {
      if (notesMidi.includes(midi)) continue;
      const { sounds } = this.note(midi);
      if (sounds < LEFT_OUT_FROM) continue;
      most = Math.max(most, logProbability(sounds) + logProbability(this.belongs(midi, notesMidi)));
    }
    return most;
  }
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
