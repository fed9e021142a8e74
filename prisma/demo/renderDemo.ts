import { E9 } from "@/lib/instrument/copedents/e9";
import { type BassNote, renderBass } from "@/lib/synth/bass";
import { type DrumHit, renderDrums } from "@/lib/synth/drums";
import { mix } from "@/lib/synth/mix";
import { playPart } from "@/lib/synth/playPart";
import { type Noise, seededNoise } from "@/lib/synth/seededNoise";
import { renderSteel } from "@/lib/synth/steelVoice";
import { renderStrums, type Strum } from "@/lib/synth/strum";
import type { Beats, Seconds } from "@/lib/units/quantities";
import { demoTruth, pieceBeatToSeconds } from "./demoTruth";
import { BASS_WALKS, CHANGES, DRUM_PATTERN, PIECE, STRUM_PATTERN, VOICINGS } from "./piece";

const SAMPLE_RATE_HZ = 44100;
/** Players stand this far off the beat, at most. */
const LOOSENESS_SEC: Seconds = 0.004;
/** The band thinks in half bars: bass, then backbeat. */
const HALF_BAR: Beats = 2;

/** The demo record, the same samples every time. Left and right, about forty seconds; takes a few seconds to make. */
export function renderDemoRecord(): { channels: Float32Array[]; sampleRateHz: 44100 } {
  const durationSec = pieceBeatToSeconds(CHANGES.length * PIECE.beatsPerBar) + PIECE.tailSec;
  const { tuningCents } = PIECE;
  const steel = playPart(demoTruth().part, E9);
  const channels = mix(
    [
      {
        samples: renderSteel(steel, durationSec, SAMPLE_RATE_HZ, seededNoise(11), tuningCents),
        gain: 0.62,
        pan: 0.18,
        room: 0.3,
      },
      {
        samples: renderBass(writeBass(seededNoise(21)), durationSec, SAMPLE_RATE_HZ, tuningCents),
        gain: 0.55,
        pan: 0,
        room: 0.04,
      },
      {
        samples: renderStrums(writeStrums(seededNoise(31)), durationSec, SAMPLE_RATE_HZ, tuningCents),
        gain: 0.42,
        pan: -0.4,
        room: 0.16,
      },
      {
        samples: renderDrums(writeDrums(seededNoise(41)), durationSec, SAMPLE_RATE_HZ, seededNoise(51)),
        gain: 0.5,
        pan: 0.05,
        room: 0.12,
      },
    ],
    SAMPLE_RATE_HZ,
  );
  return { channels, sampleRateHz: SAMPLE_RATE_HZ };
}

interface HalfBar {
  bar: number;
  /** From the first downbeat. */
  startBeat: Beats;
  number: string;
  /** First or second half of its bar. */
  half: 0 | 1;
}

/** Every half bar but those of the last bar, which is struck once and left to ring. */
function halfBars(): HalfBar[] {
  return CHANGES.slice(0, -1).flatMap((changes, index) => {
    const halves = changes.flatMap(({ number, beats }) =>
      Array.from({ length: beats / HALF_BAR }, () => number),
    );
    return halves.map((number, half) => ({
      bar: index + 1,
      startBeat: index * PIECE.beatsPerBar + half * HALF_BAR,
      number,
      half: half === 0 ? 0 : 1,
    }));
  });
}

function loose(beat: Beats, noise: Noise): Seconds {
  return pieceBeatToSeconds(beat) + noise() * LOOSENESS_SEC;
}

function voicing(number: string) {
  const found = VOICINGS[number];
  if (found === undefined) throw new RangeError(`The piece has no voicing for the change ${number}.`);
  return found;
}

function lastBar() {
  const startBeat = (CHANGES.length - 1) * PIECE.beatsPerBar;
  const number = CHANGES.at(-1)?.[0]?.number ?? "1";
  return { startBeat, endSec: pieceBeatToSeconds(startBeat + PIECE.beatsPerBar), ...voicing(number) };
}

function writeBass(noise: Noise): BassNote[] {
  const notes = halfBars().flatMap(({ bar, startBeat, number, half }, index, all): BassNote[] => {
    const { root, fifth } = voicing(number);
    const walk = half === 1 ? BASS_WALKS[bar] : undefined;
    const isNew = half === 0 || all[index - 1]?.number !== number;
    const midis = walk ?? [isNew ? root : fifth];
    const lengthBeats = walk === undefined ? 1.7 : 0.95;
    return midis.map((midi, place) => ({
      startSec: loose(startBeat + place, noise),
      endSec: pieceBeatToSeconds(startBeat + place + lengthBeats),
      midi,
      level: 0.8,
    }));
  });
  const { startBeat, endSec, root } = lastBar();
  return [...notes, { startSec: loose(startBeat, noise), endSec, midi: root, level: 0.85 }];
}

function writeStrums(noise: Noise): Strum[] {
  const strums = halfBars().flatMap(({ startBeat, number }) =>
    STRUM_PATTERN.map(({ atBeat, lengthBeats, stroke, level }): Strum => {
      const { strings } = voicing(number);
      return {
        startSec: loose(startBeat + atBeat, noise),
        endSec: pieceBeatToSeconds(startBeat + atBeat + lengthBeats),
        // A hand that comes back up meets only the upper strings.
        midis: stroke === "up" ? strings.slice(-3) : strings,
        stroke,
        level: level * (1 + 0.1 * noise()),
      };
    }),
  );
  const { startBeat, endSec, strings } = lastBar();
  return [
    ...strums,
    { startSec: loose(startBeat, noise), endSec, midis: strings, stroke: "down", level: 0.9 },
  ];
}

function writeDrums(noise: Noise): DrumHit[] {
  const hits = halfBars().flatMap(({ startBeat }) =>
    DRUM_PATTERN.map(({ atBeat, drum, level }): DrumHit => {
      const startSec = loose(startBeat + atBeat, noise);
      return { startSec, drum, level: level * (1 + 0.12 * noise()) };
    }),
  );
  const { startBeat } = lastBar();
  return [...hits, { startSec: loose(startBeat, noise), drum: "kick", level: 0.9 }];
}
