import type { HeardNote } from "@/lib/hearing/Hearing";
import { hearPassage } from "@/lib/hearing/notes/hearPassage";
import { RecordIntake } from "@/lib/hearing/RecordIntake";
import { hearTuning } from "@/lib/hearing/tuning";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import type { PitchPoint, Vibrato } from "@/lib/synth/pitchTrack";
import { seededNoise } from "@/lib/synth/seededNoise";
import type { SteelNote } from "@/lib/synth/steelPluck";
import { renderSteel } from "@/lib/synth/steelVoice";
import { addTones, RATE_HZ } from "../band";

/** One string from its pick, with glides as [middle, length, target], all in seconds and MIDI. */
export interface Played {
  startSec: number;
  endSec: number;
  midi: number;
  glides?: [atSec: number, lengthSec: number, toMidi: number][];
  vibrato?: Omit<Vibrato, "startSec">;
  swellSec?: number;
}

function pitchTrack({ startSec, midi, glides = [] }: Played): PitchPoint[] {
  let now = midi;
  const points = [{ timeSec: startSec, midi }];
  for (const [atSec, lengthSec, toMidi] of glides) {
    points.push(
      { timeSec: atSec - lengthSec / 2, midi: now },
      { timeSec: atSec + lengthSec / 2, midi: toMidi },
    );
    now = toMidi;
  }
  return points;
}

function steelNote(played: Played): SteelNote {
  const { startSec, endSec, vibrato, swellSec = 0 } = played;
  return {
    startSec,
    endSec,
    pitch: pitchTrack(played),
    vibrato: vibrato ? { ...vibrato, startSec: startSec + 0.2 } : null,
    level: 0.5,
    swellSec,
  };
}

/** Plays steel strings, with half a second of silence after the last, over a bass that strikes its notes anew. */
export function play(
  strings: readonly Played[],
  {
    bass = [],
    tuningCents = 0,
  }: { bass?: { startSec: number; endSec: number; midi: number }[]; tuningCents?: number } = {},
): Float32Array {
  const durationSec = Math.max(...strings.map(({ endSec }) => endSec)) + 0.5;
  const samples = renderSteel(strings.map(steelNote), durationSec, RATE_HZ, seededNoise(1), tuningCents);
  return addTones(
    samples,
    bass.map((note) => ({ ...note, level: 0.15 })),
    tuningCents,
  );
}

/** What the notes ear with the shipped weights hears of it. */
export async function heardIn(samples: Float32Array): Promise<HeardNote[]> {
  const { notesEar: ear } = await readLearnedEars();
  if (!ear) throw new Error("The ear's weights are not installed.");
  const intake = new RecordIntake(RATE_HZ);
  intake.take([samples], samples.length);
  const { signal, side, durationSec } = intake.finish();
  const tuningCents = hearTuning(signal).cents;
  return hearPassage({ signal, side, tuningCents, ear }, { startSec: 0, endSec: durationSec });
}

/** The notes heard to begin within 50 ms and 50 cents of one that was played. */
export function matching(
  heard: readonly HeardNote[],
  { startSec, midi }: Pick<Played, "startSec" | "midi">,
): HeardNote[] {
  return heard.filter(
    (note) => Math.abs(note.startSec - startSec) <= 0.05 && Math.abs(note.midi - midi) <= 0.5,
  );
}
