import { rms } from "@/lib/dsp/rms";
import { median } from "@/lib/dsp/running";
import { fromLogOdds } from "@/lib/hearing/logOdds";
import { RecordIntake } from "@/lib/hearing/RecordIntake";
import type { Hertz, Midi, Seconds } from "@/lib/units/quantities";
import type { FitEar } from "../FitEar";
import { isInReach, type PassageFit } from "../PassageFit";
import { clearNotes, readNotes } from "./heardInstead";
import { judgeGlides } from "./judgeGlides";
import { matchStrokes } from "./matchStrokes";
import { rounded, sumUp } from "./sumUp";
import { stretchFrom, TakeEar } from "./TakeEar";
import { type PlayedBesides, type StrokeJudged, TAKE_JUDGED_VERSION, type TakeJudged } from "./TakeJudged";
import { beginsWithin, EDGE_SEC, pitchFrom, type TakeStroke } from "./TakeStroke";
import { CLEAN, LOOK, NOTES, STRAY } from "./takeParameters";
import { type TakePick, takePicks } from "./takePicks";

/** A take as it is held against the part: the player's own sound, and how it lies on the record. */
export interface TakeSound {
  /** Mono, at any level. */
  samples: Float32Array;
  /** At least 4000. */
  sampleRateHz: Hertz;
  /** The stretch of the record that was played over. */
  startSec: Seconds;
  endSec: Seconds;
  /** Of the record while the take was made, 1 = its own. */
  speed: number;
  /** Of the samples, before the record's `startSec` was heard. */
  leadSec: Seconds;
}

/** Rings on into a stroke only what ends so much after it begins. */
const RINGS_SEC: Seconds = 0.02;

/**
 * Holds a take against the part. Picks are found by spectral flux (takePicks.ts) and matched with strokes in order
 * (matchStrokes.ts); at each the wanted notes are held against what is heard there instead (heardInstead.ts), by the note
 * dictionary and the fitted weights of `lib/fit`; then come glides (judgeGlides.ts), what swells in without a pick, and what was
 * picked besides. Which finger or string it was is not heard, nor how long a note was held.
 * @param ear of the record's tuning, which the player is tuned to
 * @param strokes of the part, in order of time; those outside of the take are left out
 * @param onStroke told how many are done, of how many
 * @throws RangeError for a take without samples, or at a rate that cannot be heard
 */
export function judgeTake(
  ear: FitEar,
  take: TakeSound,
  strokes: readonly TakeStroke[],
  onStroke: (done: number, of: number) => void = () => {},
): TakeJudged {
  const asked = strokes.filter((stroke) => beginsWithin(stroke.startSec, take));
  const intake = new RecordIntake(take.sampleRateHz);
  intake.take([take.samples], take.samples.length);
  const { signal } = intake.finish();
  const isSilent = rms(take.samples) < STRAY.silentUnder;
  const picks = isSilent ? [] : takePicks(signal);
  const judge = new TakeJudge(new TakeEar(ear, signal, picks), take, asked);
  const judged = asked.map((_, at) => {
    const stroke = judge.stroke(at);
    onStroke(at + 1, asked.length);
    return stroke;
  });
  // A stroke on the edge is played a little before or after it; it is not asked for, and nothing besides either.
  const besides = judge
    .besides()
    .filter(
      ({ atSec }) =>
        !strokes.some(
          (stroke) =>
            !asked.includes(stroke) && Math.abs(stroke.startSec - atSec) <= CLEAN.medianSec * take.speed,
        ),
    );
  const { startSec, endSec, speed } = take;
  return {
    version: TAKE_JUDGED_VERSION,
    ...{ startSec, endSec, speed },
    ...sumUp(judged, besides, isSilent),
    strokes: judged,
    besides,
  };
}

/** One take and the strokes that are asked of it. */
class TakeJudge {
  private readonly wantedSec: readonly Seconds[];
  private readonly wanted: readonly (readonly Midi[])[];
  /** For each stroke the place of its pick, or null. */
  private readonly pickOf: readonly (number | null)[];
  private readonly loudness: readonly number[];
  /** How late the picks of strokes lie in the middle. */
  private readonly lateSec: Seconds;
  /** How loud their notes are in the middle, nats. */
  private readonly usualLevel: number;
  /** What was heard in place of strokes already judged. */
  private readonly instead = new Map<number, readonly Midi[]>();

  constructor(
    private readonly ear: TakeEar,
    private readonly take: TakeSound,
    private readonly strokes: readonly TakeStroke[],
  ) {
    const { picks } = ear;
    this.wantedSec = strokes.map(({ startSec }) => this.onTake(startSec));
    this.wanted = strokes.map(({ notes }) =>
      [...new Set(notes.map(({ midi }) => midi))].filter(isInReach).sort((a, b) => a - b),
    );
    const match = (loudness: readonly number[]) =>
      matchStrokes({
        wantedSec: this.wantedSec,
        pickedSec: picks.map(({ atSec }) => atSec),
        loudness,
        sounds: (stroke, pick) => leastSounds(ear.at(pick), this.wanted[stroke]!),
      });
    // What is usual is first taken of the loud picks, then of those that are strokes.
    const first = match(shares(picks, loudOf(picks)));
    const strengths = first.flatMap((pick) => (pick === null ? [] : picks[pick]!.strength));
    this.loudness = shares(picks, strengths.length > 0 ? median(strengths) : loudOf(picks));
    this.pickOf = match(this.loudness);
    const found = this.pickOf.flatMap((pick, at) => (pick === null ? [] : [{ pick, at }]));
    this.lateSec =
      found.length > 0 ? median(found.map(({ pick, at }) => picks[pick]!.atSec - this.wantedSec[at]!)) : 0;
    const levels = found.flatMap(({ pick, at }) =>
      this.wanted[at]!.map((midi) => ear.at(pick).note(midi)).flatMap((note) =>
        note.sounds > 0 ? note.level : [],
      ),
    );
    this.usualLevel = levels.length > 0 ? median(levels) : Number.POSITIVE_INFINITY;
  }

  stroke(at: number): StrokeJudged {
    const { eventId, startSec, notes } = this.strokes[at]!;
    const wanted = this.wanted[at]!;
    const judged: StrokeJudged = {
      ...{ eventId, startSec, notesMidi: [...wanted] },
      ...{ verdict: "missed", heardMidi: null, fit: null, lateSec: null, glides: [] },
    };
    if (wanted.length === 0) return judged;
    const pick = this.pickOf[at]!;
    const atSec = pick === null ? this.wantedSec[at]! + this.lateSec : this.ear.picks[pick]!.atSec;
    const fit = pick === null ? this.soft(at) : this.picked(at, pick);
    if (!fit) return judged;
    const ringing = this.ringing(at);
    const own = [...wanted, ...clearNotes(fit).filter((midi) => !ringing.includes(midi))];
    const isLoud = pick !== null && this.loudness[pick]! >= STRAY.loudFrom;
    if (!isLoud && !this.isPlayers(fit, own)) return judged;
    const reading = readNotes(fit, wanted, ringing);
    const heard = reading.instead ?? (reading.logOdds < NOTES.heardFrom ? clearNotes(fit) : null);
    const isHeard = heard === null || heard.join() === wanted.join();
    if (heard && !isHeard && (pick === null || heard.length === 0)) return judged;
    judged.verdict = isHeard ? "found" : "other";
    judged.fit = Math.round(1e3 * fromLogOdds(reading.logOdds)) / 1e3;
    if (pick !== null) judged.lateSec = rounded(atSec - this.wantedSec[at]!);
    if (!isHeard) {
      judged.heardMidi = heard;
      this.instead.set(at, heard!);
      return judged;
    }
    const byHand = atSec - this.wantedSec[at]!;
    judged.glides = judgeGlides(notes, {
      toTakeSec: (sec) => this.onTake(sec) + byHand,
      over: (stretch) => this.ear.over(stretch),
      othersAt: (sec) => [
        ...this.ringing(at, sec),
        ...notes.filter(({ glides }) => glides.length === 0).map(({ midi }) => midi),
      ],
      nextStrokeSec: this.strokes[at + 1]?.startSec ?? Number.POSITIVE_INFINITY,
    });
    return judged;
  }

  /** What was clearly picked and is no stroke. */
  besides(): PlayedBesides[] {
    const { picks } = this.ear;
    const taken = new Set(this.pickOf);
    const ofStrokes = picks.filter((_, pick) => taken.has(pick));
    return picks.flatMap((pick, place): PlayedBesides[] => {
      const atSec = this.onRecord(pick.atSec - this.lateSec);
      if (taken.has(place) || this.loudness[place]! < STRAY.besidesFrom) return [];
      if (atSec < this.take.startSec - EDGE_SEC || atSec >= this.take.endSec) return [];
      if (ofStrokes.some((other) => Math.abs(other.atSec - pick.atSec) < STRAY.besidesApartSec)) return [];
      const fit = this.ear.at(place);
      const moved = this.movedAt(atSec);
      const heardMidi = clearNotes(fit).filter((midi) => {
        const isNew = fit.note(midi).rise >= STRAY.besidesRise && !moved.includes(midi);
        return isNew && this.isPlayers(fit, [midi]);
      });
      return heardMidi.length > 0 ? [{ atSec: rounded(atSec), heardMidi }] : [];
    });
  }

  /** What sounds from a stroke's pick on, as long as its notes stand still. */
  private picked(at: number, pick: number): PassageFit {
    const { startSec, notes } = this.strokes[at]!;
    const glideSec = Math.min(
      ...notes.flatMap(({ glides }) => glides[0]?.startSec ?? Number.POSITIVE_INFINITY),
    );
    const atSec = this.ear.picks[pick]!.atSec;
    const stillSec = atSec + (glideSec - startSec) / this.take.speed;
    const nextSec = this.ear.picks[pick + 1]?.atSec ?? Number.POSITIVE_INFINITY;
    if (stillSec >= Math.min(nextSec, atSec + LOOK.longestSec)) return this.ear.at(pick);
    return this.ear.over(stretchFrom(atSec, stillSec));
  }

  /** What sounds about the time of a stroke that has no pick, where it swells in there. */
  private soft(at: number): PassageFit | null {
    if (this.usualLevel === Number.POSITIVE_INFINITY) return null;
    const startSec = this.wantedSec[at]! + this.lateSec;
    const nextSec = (this.wantedSec[at + 1] ?? Number.POSITIVE_INFINITY) + this.lateSec;
    const fit = this.ear.over(stretchFrom(startSec, nextSec));
    const comes = this.wanted[at]!.every((midi) => fit.note(midi).rise >= STRAY.softRise);
    return comes ? fit : null;
  }

  /** Whether the loudest of some notes is as loud as this player plays. */
  private isPlayers(fit: PassageFit, midis: readonly Midi[]): boolean {
    return midis.some((midi) => fit.note(midi).level >= this.usualLevel - STRAY.quieterBy);
  }

  /** What rings on from strokes before one, as the part has it or as it was heard in its place. */
  private ringing(at: number, recordSec = this.strokes[at]!.startSec): Midi[] {
    return this.strokes.slice(0, at).flatMap(({ notes }, before) => {
      const on = notes.filter(({ endSec }) => endSec > recordSec + RINGS_SEC);
      if (on.length === 0) return [];
      return [...on.map((note) => pitchFrom(note, recordSec)), ...(this.instead.get(before) ?? [])];
    });
  }

  /** Pitches between which notes move about a time of the record. */
  private movedAt(recordSec: Seconds): Midi[] {
    const aboutSec = STRAY.aboutGlideSec * this.take.speed;
    return this.strokes.flatMap(({ notes }) =>
      notes.flatMap(({ midi, glides }) =>
        glides.flatMap(({ toMidi, startSec, endSec }, place) => {
          if (recordSec < startSec - aboutSec || recordSec > endSec + aboutSec) return [];
          const from = glides[place - 1]?.toMidi ?? midi;
          const [low, high] = [Math.min(from, toMidi), Math.max(from, toMidi)];
          return Array.from({ length: high - low + 1 }, (_, n) => low + n);
        }),
      ),
    );
  }

  private onTake(recordSec: Seconds): Seconds {
    return this.take.leadSec + (recordSec - this.take.startSec) / this.take.speed;
  }

  private onRecord(takeSec: Seconds): Seconds {
    return this.take.startSec + (takeSec - this.take.leadSec) * this.take.speed;
  }
}

/** Log odds that the least sure of some notes sounds; none sound as little as can be. */
function leastSounds(fit: PassageFit, midis: readonly Midi[]): number {
  return midis.length === 0
    ? Number.NEGATIVE_INFINITY
    : Math.min(...midis.map((midi) => fit.note(midi).sounds));
}

/** Nine of ten picks are weaker. */
function loudOf(picks: readonly TakePick[]): number {
  const rising = picks.map(({ strength }) => strength).sort((a, b) => a - b);
  return rising[Math.floor(0.9 * rising.length)] ?? 1;
}

function shares(picks: readonly TakePick[], usual: number): number[] {
  return picks.map(({ strength }) => (usual > 0 ? strength / usual : 0));
}
