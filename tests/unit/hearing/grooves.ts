import { type BassNote, renderBass } from "@/lib/synth/bass";
import { type DrumHit, renderDrums } from "@/lib/synth/drums";
import { seededNoise } from "@/lib/synth/seededNoise";
import { renderStrums, type Strum } from "@/lib/synth/strum";
import { RATE_HZ } from "./band";

/** How a band keeps time over bars of one metre. */
export interface Groove {
  beatsPerBar: number;
  /** Where between two beats the off-beats fall, as shares of the beat: halves, the swung third, or both thirds. */
  offBeats: number[];
  /** Beats of the bar, counted from 0, on which the bass plays; the guitar strums the others. */
  bassOn: number[];
  /** Beats that the snare drum marks. */
  snareOn: number[];
}

/** Two-beat country bass: root and fifth by turns, the guitar between. */
export const BOOM_CHICK: Groove = { beatsPerBar: 4, offBeats: [1 / 2], bassOn: [0, 2], snareOn: [1, 3] };
export const SHUFFLE: Groove = { ...BOOM_CHICK, offBeats: [2 / 3] };
export const POLKA: Groove = { beatsPerBar: 2, offBeats: [1 / 2], bassOn: [0], snareOn: [] };
export const WALTZ: Groove = { beatsPerBar: 3, offBeats: [], bassOn: [0], snareOn: [] };
/** Six eighths, two beats of three. */
export const JIG: Groove = { beatsPerBar: 2, offBeats: [1 / 3, 2 / 3], bassOn: [0, 1], snareOn: [] };
/** Six slow eighths, each a beat. */
export const SLOW_SIX: Groove = { beatsPerBar: 6, offBeats: [], bassOn: [0], snareOn: [3] };

const CHORDS = [
  { root: 43, fifth: 38, upper: [55, 59, 62, 67] },
  { root: 36, fifth: 43, upper: [55, 60, 64, 67] },
  { root: 38, fifth: 45, upper: [57, 62, 66, 69] },
  { root: 43, fifth: 38, upper: [55, 59, 62, 67] },
];

/** What is played beside the groove. */
export interface Extras {
  /** Beats before the first bar in which the guitar alone strums: a pick-up. */
  pickUpBeats?: number;
  /** Beats before the first bar in which sticks alone count. */
  countInBeats?: number;
  /** Stretch of beats, counted from the first, in which nobody plays. */
  silent?: { from: number; to: number };
  /** Notes of a guitar alone, out of time. */
  freeSec?: number[];
}

/** G, C, D, G, a chord a bar, over the beats given; the last time only ends the last beat. */
export function playGroove(groove: Groove, beatsSec: readonly number[], extras: Extras = {}): Float32Array {
  const { beatsPerBar, offBeats, bassOn, snareOn } = groove;
  const { pickUpBeats = 0, countInBeats = 0, silent, freeSec = [] } = extras;
  const bass: BassNote[] = [];
  const strums: Strum[] = [];
  const drums: DrumHit[] = [];
  const lastSec = beatsSec.at(-1)!;
  beatsSec.slice(0, -1).forEach((startSec, i) => {
    const nextSec = beatsSec[i + 1]!;
    if (silent && i >= silent.from && i < silent.to) return;
    const counted = i - pickUpBeats - countInBeats;
    if (i < countInBeats) {
      drums.push({ startSec, drum: "snare", level: 0.4 });
      return;
    }
    const bar = Math.max(0, Math.floor(counted / beatsPerBar));
    const { root, fifth, upper } = CHORDS[bar % CHORDS.length]!;
    const strum = (atSec: number, stroke: Strum["stroke"], level: number): void => {
      strums.push({ startSec: atSec, endSec: nextSec, midis: upper, stroke, level });
    };
    if (counted < 0) {
      strum(startSec, "down", 0.4);
      return;
    }
    const inBar = counted % beatsPerBar;
    if (bassOn.includes(inBar)) {
      bass.push({ startSec, endSec: nextSec, midi: inBar === 0 ? root : fifth, level: 0.7 });
      drums.push({ startSec, drum: "kick", level: inBar === 0 ? 0.7 : 0.5 });
    } else {
      strum(startSec, "down", 0.5);
    }
    if (snareOn.includes(inBar)) drums.push({ startSec, drum: "snare", level: 0.35 });
    drums.push({ startSec, drum: "hat", level: 0.25 });
    for (const share of offBeats) {
      const atSec = startSec + share * (nextSec - startSec);
      drums.push({ startSec: atSec, drum: "hat", level: 0.15 });
      strum(atSec, "up", 0.25);
    }
  });
  for (const [i, startSec] of freeSec.entries()) {
    strums.push({
      startSec,
      endSec: startSec + 0.7,
      midis: CHORDS[i % 4]!.upper,
      stroke: "down",
      level: 0.4,
    });
  }
  const durationSec = lastSec + 0.4;
  const stems = [
    renderBass(bass, durationSec, RATE_HZ),
    renderStrums(strums, durationSec, RATE_HZ),
    renderDrums(drums, durationSec, RATE_HZ, seededNoise(7)),
  ];
  return stems[0]!.map((value, n) => 0.3 * (value + stems[1]![n]! + stems[2]![n]!));
}

/** `count` beats and the end of the last, at `bpm(i)` beats a minute after the i-th. */
export function beatTimes(count: number, bpm: (beat: number) => number, fromSec = 0.3): number[] {
  const times = [fromSec];
  for (let i = 0; i < count; i++) times.push(times.at(-1)! + 60 / bpm(i));
  return times;
}
