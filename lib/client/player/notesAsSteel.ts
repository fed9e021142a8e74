import { level } from "@/lib/synth/mix";
import { seededNoise } from "@/lib/synth/seededNoise";
import type { SteelNote } from "@/lib/synth/steelPluck";
import { renderSteel } from "@/lib/synth/steelVoice";
import type { Cents, Hertz, Seconds } from "@/lib/units/quantities";
import { noteTrace, type TracedNote } from "../song/noteTrace";
import { CEILING } from "./outputChain";

/** Longer passages are cut off here: what is to be heard alone is a few notes. */
export const LONGEST_SOUND_SEC: Seconds = 12;
/** The last note is let ring out this long after its end. */
const RING_SEC: Seconds = 0.1;

/**
 * Notes as a steel would play them, alone: from the first pick on, with their glides, in tune with the record.
 * @returns samples within ±{@link CEILING}; none where there are no notes
 */
export function notesAsSteel(
  notes: readonly TracedNote[],
  sampleRateHz: Hertz,
  tuningCents: Cents,
): Float32Array<ArrayBuffer> {
  if (notes.length === 0) return new Float32Array(0);
  const firstSec = Math.min(...notes.map(({ startSec }) => startSec));
  const lastSec = Math.max(...notes.map(({ endSec }) => endSec));
  const played = notes.map((note): SteelNote => {
    const pitch = noteTrace(note).map(({ timeSec, midi }) => ({ timeSec: timeSec - firstSec, midi }));
    const [startSec, endSec] = [note.startSec - firstSec, note.endSec - firstSec];
    return { startSec, endSec, pitch, vibrato: null, level: 0.4, swellSec: 0 };
  });
  const durationSec = Math.min(LONGEST_SOUND_SEC, lastSec - firstSec + RING_SEC);
  const samples = renderSteel(played, durationSec, sampleRateHz, seededNoise(1), tuningCents);
  level([samples]);
  return Float32Array.from(samples, (sample) => sample * CEILING);
}
