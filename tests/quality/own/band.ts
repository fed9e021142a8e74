import { midiToHertz } from "@/lib/units/pitch";
import { encodeChord } from "../metrics/harteEncoding";
import type { OwnSong } from "./songs";

/** A plain band: bass, broken chords, kick and hat. Rendered the same at every run. */
export const BAND_RATE_HZ = 32_000;
/** Silence before the first beat. */
const LEAD_IN_SEC = 0.4;
const TAIL_SEC = 0.8;

export interface RenderedSong {
  samples: Float32Array<ArrayBuffer>;
  beats: { timeSec: number; inBar: number }[];
  chords: { startSec: number; endSec: number; label: string }[];
  durationSec: number;
}

interface Tone {
  startSec: number;
  lengthSec: number;
  midi: number;
  level: number;
  /** How fast higher partials fall off: 1 is bright, 2 is dull. */
  dullness: number;
}

function addTone(samples: Float32Array, tone: Tone, tuningCents: number): void {
  const frequencyHz = midiToHertz(tone.midi, tuningCents);
  const from = Math.round(tone.startSec * BAND_RATE_HZ);
  const frames = Math.min(samples.length - from, Math.round((tone.lengthSec + 0.05) * BAND_RATE_HZ));
  for (let partial = 1; partial <= 8 && partial * frequencyHz < BAND_RATE_HZ / 2.5; partial++) {
    const level = tone.level / partial ** tone.dullness;
    const step = (2 * Math.PI * partial * frequencyHz) / BAND_RATE_HZ;
    for (let i = 0; i < frames; i++) {
      const sec = i / BAND_RATE_HZ;
      const attack = Math.min(1, sec / 0.006);
      const release = Math.min(1, (frames - i) / (0.05 * BAND_RATE_HZ));
      const decay = Math.exp(-sec * (1.2 + 0.5 * partial));
      samples[from + i]! += level * attack * release * decay * Math.sin(step * i);
    }
  }
}

/** A burst of noise (a linear congruential generator, so the same each time) or a falling low tone. */
function addHit(samples: Float32Array, startSec: number, kind: "kick" | "hat"): void {
  const from = Math.round(startSec * BAND_RATE_HZ);
  const frames = Math.round((kind === "kick" ? 0.15 : 0.04) * BAND_RATE_HZ);
  let state = 12_345 + from;
  let previous = 0;
  for (let i = 0; i < frames && from + i < samples.length; i++) {
    const sec = i / BAND_RATE_HZ;
    state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fffffff;
    const noise = state / 0x40000000 - 1;
    const hat = 0.05 * Math.exp(-sec * 90) * (noise - previous);
    const kick =
      0.22 * Math.exp(-sec * 28) * Math.sin(2 * Math.PI * (48 * sec + 3 * (1 - Math.exp(-sec * 40))));
    samples[from + i]! += kind === "kick" ? kick : hat;
    previous = noise;
  }
}

/** Notes of a chord near the middle of the keyboard, lowest first. */
function voicing(label: string): number[] {
  const { root, semitones } = encodeChord(label);
  return semitones
    .flatMap((on, i) => (on === 1 ? [55 + ((root + i - 55 + 120) % 12)] : []))
    .sort((a, b) => a - b);
}

function bassNote(label: string): number {
  const { root, bass } = encodeChord(label);
  return 36 + ((root + bass - 36 + 120) % 12);
}

export function renderSong({ bpm, beatsPerBar, bars, tuningCents }: OwnSong): RenderedSong {
  const beatSec = 60 / bpm;
  const durationSec = LEAD_IN_SEC + bars.length * beatsPerBar * beatSec + TAIL_SEC;
  const samples = new Float32Array(Math.round(durationSec * BAND_RATE_HZ));
  const beats: RenderedSong["beats"] = [];
  const chords: RenderedSong["chords"] = [{ startSec: 0, endSec: LEAD_IN_SEC, label: "N" }];
  bars.forEach((labels, bar) => {
    const barSec = LEAD_IN_SEC + bar * beatsPerBar * beatSec;
    for (let beat = 0; beat < beatsPerBar; beat++) {
      const timeSec = barSec + beat * beatSec;
      beats.push({ timeSec, inBar: beat + 1 });
      addHit(samples, timeSec, beat === 0 || (beatsPerBar === 4 && beat === 2) ? "kick" : "hat");
      addHit(samples, timeSec + beatSec / 2, "hat");
      const label = labels[Math.floor((beat * labels.length) / beatsPerBar)]!;
      const notes = voicing(label);
      const isBassBeat = beat === 0 || (beatsPerBar === 4 && beat === 2);
      if (isBassBeat) {
        addTone(
          samples,
          { startSec: timeSec, lengthSec: 1.6 * beatSec, midi: bassNote(label), level: 0.2, dullness: 1.4 },
          tuningCents,
        );
      }
      for (const half of [0, 1]) {
        const startSec = timeSec + (half * beatSec) / 2;
        // The whole chord off the bass, one note of it between.
        const struck =
          half === 0 && !isBassBeat ? notes : [notes[(2 * beat + half) % notes.length]! + 12 * half];
        for (const midi of struck) {
          addTone(
            samples,
            { startSec, lengthSec: 0.9 * beatSec, midi, level: 0.09, dullness: 1.1 },
            tuningCents,
          );
        }
      }
    }
    labels.forEach((label, i) => {
      const lengthSec = (beatsPerBar * beatSec) / labels.length;
      chords.push({ startSec: barSec + i * lengthSec, endSec: barSec + (i + 1) * lengthSec, label });
    });
  });
  return { samples, beats, chords, durationSec };
}
