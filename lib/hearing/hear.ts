import type { Hertz } from "@/lib/units/quantities";
import { hearBassLine } from "./bass/bassLine";
import { LowNotes } from "./bass/LowNotes";
import { learnedBass } from "./bass/learnedBass";
import { signalBass } from "./bass/signalBass";
import { chooseBeats } from "./beatLevel";
import { stretchChroma } from "./chroma";
import { hearOnsets, hearPitchSpectra } from "./evidence";
import { repeatedChords } from "./form/repeatedChords";
import { hearForm } from "./form/sections";
import type { HeardNote, Hearing, HearingProgress } from "./Hearing";
import { HearingWatch } from "./HearingWatch";
import { hearHarmony } from "./harmony";
import { beatCurves } from "./learned/beatCurves";
import type { LearnedEars } from "./learned/LearnedEars";
import type { NotesEar } from "./learned/NotesEar";
import { hearNotesInPieces } from "./notes/hearNotesInPieces";
import { roundNote } from "./notes/roundNote";
import { beatEvidence } from "./novelty";
import { RecordIntake, type RecordSignal } from "./RecordIntake";
import { cutAtBeats } from "./stretches";
import { chordsOf, gridOf, homesOf } from "./telling";
import { type HeardTuning, hearTuning } from "./tuning";

export { HearingStopped } from "./HearingWatch";

/** Told apart in stored results; raised whenever the method or its numbers change what is heard. */
export const HEARING_VERSION = "signal-5";

/** Name of the method that {@link hear} uses with and without learned ears: each of these once. */
export function hearingVersion({ ear, notesEar }: Partial<LearnedEars>): string {
  const ears = [ear, notesEar].flatMap((each) => (each ? [each.version] : []));
  return [HEARING_VERSION, ...new Set(ears)].join("+");
}

/**
 * How to hear: with trained networks together with the plain signal, where they are given; without an ear the signal
 * alone is heard, and without a notes ear no notes.
 */
export interface HearOptions extends Partial<LearnedEars> {
  /** Called as each step goes on, steps in the order of HEARING_STEPS, notes after the tuning. */
  onProgress?: HearingProgress;
  /** Asked often; hearing ends with {@link HearingStopped} once it returns true. */
  shouldStop?: () => boolean;
  /** Hears the notes too, in numbers rounded for keeping; it takes the notes ear. */
  notes?: boolean;
}

/**
 * Hears a record: tuning, beats and bars, changes, homes, bass line, sections, and its notes where asked to. The same
 * samples always give the same answer.
 * @param samples mono, any level, all finite; at least one
 * @param sampleRateHz rate of `samples`, at least 4000
 * @throws RangeError when the samples or the rate cannot be heard
 * @throws HearingStopped when `shouldStop` says so
 */
export function hear(samples: Float32Array, sampleRateHz: Hertz, options: HearOptions = {}): Hearing {
  const intake = new RecordIntake(sampleRateHz);
  intake.take([samples], samples.length);
  return hearRecord(intake.finish(), options);
}

/**
 * The same of a record that was taken in block by block. Its samples are given up on the way: it can be heard once.
 * @throws HearingStopped when `shouldStop` says so
 */
export function hearRecord(record: RecordSignal, options: HearOptions = {}): Hearing {
  const watch = new HearingWatch(options.onProgress, options.shouldStop);
  watch.begin("tuning");
  const tuning = hearTuning(record.signal, watch.span(0, 1));
  watch.at(1);
  // Before all that is held beside the samples.
  const notes = options.notes ? hearNotesOf(record, tuning, options.notesEar ?? null, watch) : undefined;
  // Nothing but the notes is heard from it.
  record.side?.clear();
  const hearing = hearMusic(record, tuning, options, watch);
  return notes === undefined ? hearing : { ...hearing, notes };
}

function hearNotesOf(
  record: RecordSignal,
  tuning: HeardTuning,
  ear: NotesEar | null,
  watch: HearingWatch,
): HeardNote[] | null {
  if (!ear) return null;
  watch.begin("notes");
  const { signal, side, durationSec } = record;
  const hearing = { signal, side, tuningCents: tuning.cents, ear };
  const whole = { startSec: 0, endSec: durationSec };
  return hearNotesInPieces(hearing, whole, (fraction) => watch.at(fraction)).map(roundNote);
}

/** Everything but the notes. The samples are given up on the way. */
function hearMusic(
  { signal, durationSec }: RecordSignal,
  tuning: HeardTuning,
  ears: Partial<LearnedEars>,
  watch: HearingWatch,
): Hearing {
  const ear = ears.ear ?? null;
  watch.begin("beats");
  const lowNotes = ear && new LowNotes(ear.noteMaps);
  const notesWanted = { onNotes: lowNotes?.hear, noteRange: LowNotes.range };
  const learned = ear?.listen(signal, watch.span(0, 0.6), notesWanted) ?? null;
  const begun = learned ? 0.6 : 0;
  const onsets = hearOnsets(signal, watch.span(begun, begun + 0.35 * (1 - begun)));
  const spectra = hearPitchSpectra(signal, tuning.cents, watch.span(begun + 0.35 * (1 - begun), 0.9));
  // All else is heard from these; the samples are the largest part of what is held.
  signal.clear();
  const curves = learned && beatCurves(learned, onsets.frameRateHz, onsets.all.length);
  const evidence = beatEvidence(onsets, spectra, curves);
  const chain = chooseBeats(evidence, durationSec, watch.span(0.9, 1, 1));
  watch.at(1);

  watch.begin("changes");
  const { division } = chain;
  const { edgesSec } = cutAtBeats(chain.timesSec, null, durationSec, division);
  const chroma = stretchChroma(spectra, edgesSec, watch.span(0, 0.9, 8));
  const harmony = hearHarmony(
    { beatsSec: chain.timesSec, division, beatEvidence: evidence, chroma, learned, durationSec },
    (sketch) => {
      const heard = { certain: sketch.certain, edgesSec: sketch.stretches.edgesSec };
      const form = hearForm(
        { grid: gridOf(chain, sketch.bars), durationSec, ...heard },
        watch.span(0.9, 1, 1),
      );
      return repeatedChords(heard, form.bars, form.repeats);
    },
  );
  watch.at(1);

  watch.begin("home");
  const homes = homesOf(harmony.keys, harmony.stretches);
  watch.at(1);

  watch.begin("bass");
  const bassEvidence = lowNotes ? learnedBass(lowNotes) : signalBass(spectra, evidence);
  watch.at(0.5);
  const bass = hearBassLine(bassEvidence, chain.timesSec, durationSec);
  watch.at(1);

  watch.begin("sections");
  const grid = gridOf(chain, harmony.bars);
  const { certain, stretches } = harmony;
  const { sections } = hearForm(
    { grid, certain, edgesSec: stretches.edgesSec, durationSec },
    watch.span(0, 1, 1),
  );
  watch.at(1);

  return {
    version: hearingVersion(ears),
    durationSec,
    tuningCents: tuning.cents,
    tuningConfidence: tuning.confidence,
    grid,
    homes,
    chords: chordsOf(harmony, homes),
    bass,
    sections,
  };
}
