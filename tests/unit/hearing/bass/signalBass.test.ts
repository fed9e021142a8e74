import { describe, expect, it } from "vitest";
import { type BassEvidence, LOWEST_BASS } from "@/lib/hearing/bass/BassEvidence";
import { hearBassLine } from "@/lib/hearing/bass/bassLine";
import { signalBass } from "@/lib/hearing/bass/signalBass";
import { hearOnsets, hearPitchSpectra } from "@/lib/hearing/evidence";
import { beatEvidence } from "@/lib/hearing/novelty";
import { RecordIntake } from "@/lib/hearing/RecordIntake";
import { matchNotes } from "@/lib/scoring/noteMatching";
import { type BassNote, renderBass } from "@/lib/synth/bass";
import { renderStrums } from "@/lib/synth/strum";
import { RATE_HZ } from "../band";

const BEAT_SEC = 0.5;

interface Take {
  bass: BassNote[];
  durationSec: number;
  tuningCents?: number;
  /** A guitar chord on each beat. */
  guitar?: readonly number[];
}

function beatsOf(durationSec: number): number[] {
  return Array.from({ length: Math.floor(durationSec / BEAT_SEC) }, (_, i) => i * BEAT_SEC);
}

function evidenceOf({ bass, durationSec, tuningCents = 0, guitar = [] }: Take): BassEvidence {
  const samples = renderBass(bass, durationSec, RATE_HZ, tuningCents);
  if (guitar.length > 0) {
    const strums = beatsOf(durationSec).map((startSec) => ({
      startSec,
      endSec: startSec + 0.4,
      midis: guitar,
      stroke: "down" as const,
      level: 0.5,
    }));
    const chords = renderStrums(strums, durationSec, RATE_HZ, tuningCents);
    for (let i = 0; i < samples.length; i++) samples[i]! += 0.5 * chords[i]!;
  }
  const intake = new RecordIntake(RATE_HZ);
  intake.take([samples], samples.length);
  const { signal } = intake.finish();
  const onsets = hearOnsets(signal);
  const spectra = hearPitchSpectra(signal, tuningCents);
  return signalBass(spectra, beatEvidence(onsets, spectra, null));
}

function hear(take: Take) {
  return hearBassLine(evidenceOf(take), beatsOf(take.durationSec), take.durationSec);
}

/** Notes one after another from the second beat on; null is a rest. */
function line(midis: readonly (number | null)[], beatsEach: number): BassNote[] {
  return midis.flatMap((midi, i) => {
    const startSec = (1 + i * beatsEach) * BEAT_SEC;
    return midi === null
      ? []
      : [{ startSec, endSec: startSec + 0.9 * beatsEach * BEAT_SEC, midi, level: 0.8 }];
  });
}

/** Right notes of mir_eval's rule (onset within 50 ms, pitch within 50 cents), missed and false ones. */
function compare(take: Take): { right: number; missed: number; wrong: number } {
  const heard = hear(take);
  const right = matchNotes(take.bass, heard).filter((match) => match >= 0).length;
  return { right, missed: take.bass.length - right, wrong: heard.length - right };
}

describe("the bass line out of the signal alone", () => {
  it("hears a walk-up under a strummed guitar", () => {
    const bass = line([36, 36, 38, 40, 41, 41, 43, 45, 46, 46], 1);
    const { missed, wrong } = compare({ bass, durationSec: 6.5, guitar: [60, 64, 67] });
    expect(missed).toBeLessThanOrEqual(1);
    expect(wrong).toBeLessThanOrEqual(1);
  });

  it("hears root and fifth in a record that stands 35 cents sharp", () => {
    const bass = line([43, 38, 43, 38, 36, 43, 36, 43], 2);
    expect(compare({ bass, durationSec: 9, tuningCents: 35 })).toEqual({ right: 8, missed: 0, wrong: 0 });
  });

  it("hears octaves as octaves, and repeated notes as often as they come", () => {
    expect(compare({ bass: line([33, 45, 33, 45, 33, 45], 1), durationSec: 4.5 }).right).toBe(6);
    const repeated = compare({ bass: line([40, 40, 40, 40, 40, 40], 1), durationSec: 4.5 });
    expect(repeated).toEqual({ right: 6, missed: 0, wrong: 0 });
  });

  it("holds a long note as one, and rests", () => {
    const held = compare({ bass: [{ startSec: 0.5, endSec: 3.5, midi: 36, level: 0.8 }], durationSec: 5 });
    expect(held).toEqual({ right: 1, missed: 0, wrong: 0 });
    const underGuitar = {
      bass: [{ startSec: 0.5, endSec: 3.5, midi: 36, level: 0.8 }],
      guitar: [60, 64, 67],
    };
    expect(compare({ ...underGuitar, durationSec: 4 })).toEqual({ right: 1, missed: 0, wrong: 0 });
    const rests = compare({ bass: line([36, null, null, null, 43, null, null, null], 1), durationSec: 5 });
    expect(rests).toEqual({ right: 2, missed: 0, wrong: 0 });
    expect(hear({ bass: [], durationSec: 2 })).toEqual([]);
  });

  it("gives an onset to the pitch that rises there sooner than to the one that ends", () => {
    const { onset, frameRateHz } = evidenceOf({ bass: line([36, 43], 2), durationSec: 3 });
    const changeFrame = Math.round(3 * BEAT_SEC * frameRateHz);
    const strongest = (midi: number) =>
      Math.max(...[-2, -1, 0, 1, 2].map((t) => onset.row(changeFrame + t)[midi - LOWEST_BASS]!));
    expect(strongest(43)).toBeGreaterThan(strongest(36) + 1);
  });
});
