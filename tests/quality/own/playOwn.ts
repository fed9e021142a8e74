import { renderBass } from "@/lib/synth/bass";
import { type DrumHit, renderDrums } from "@/lib/synth/drums";
import { mix } from "@/lib/synth/mix";
import { type Noise, seededNoise } from "@/lib/synth/seededNoise";
import type { SteelNote } from "@/lib/synth/steelPluck";
import { renderSteel } from "@/lib/synth/steelVoice";
import { renderStrums, type Strum } from "@/lib/synth/strum";
import type { Damage } from "../Subject";
import { bassPart } from "./bassPart";
import { damaged } from "./damage";
import { type LaidSong, layOut, voicing } from "./layOut";
import { OWN_SONGS, type OwnSong } from "./songs";

const SAMPLE_RATE_HZ = 32_000;
/** Players stand this far off the beat, at most. */
const LOOSENESS_SEC = 0.006;
/** The guitar's strings lie above this. */
const GUITAR_MIDI = 52;
const STEEL_MIDI = 64;

export interface Played {
  channels: Float32Array[];
  sampleRateHz: number;
}

/** @throws RangeError for a song that there is none of */
export function playOwn(id: string, damage: Damage | null): Played {
  const song = OWN_SONGS.find((other) => other.id === id);
  if (!song) throw new RangeError(`No song of our own is called ${id}.`);
  return playSong(song, damage);
}

/** Plays a song, left and right; the same samples every time. Damaged copies are mono. */
export function playSong(song: OwnSong, damage: Damage | null): Played {
  const laid = layOut(song);
  const { durationSec } = laid;
  const { tuningCents } = song;
  const channels = mix(
    [
      {
        samples: renderSteel(
          steelPart(song, laid),
          durationSec,
          SAMPLE_RATE_HZ,
          seededNoise(11),
          tuningCents,
        ),
        ...{ gain: 0.4, pan: 0.3, room: 0.3 },
      },
      {
        samples: renderBass(bassPart(song, laid), durationSec, SAMPLE_RATE_HZ, tuningCents),
        ...{ gain: 0.55, pan: 0, room: 0.04 },
      },
      {
        samples: renderStrums(guitarPart(song, laid), durationSec, SAMPLE_RATE_HZ, tuningCents),
        ...{ gain: 0.45, pan: -0.4, room: 0.16 },
      },
      {
        samples: renderDrums(drumPart(song, laid), durationSec, SAMPLE_RATE_HZ, seededNoise(51)),
        ...{ gain: 0.4, pan: 0.05, room: 0.12 },
      },
    ],
    SAMPLE_RATE_HZ,
  );
  return {
    channels: damage ? damaged(channels, SAMPLE_RATE_HZ, damage) : channels,
    sampleRateHz: SAMPLE_RATE_HZ,
  };
}

/** Where the parts of each beat begin; swung beats in three leave out the middle one. */
function partsOf({ division, groove }: OwnSong, startSec: number, endSec: number): number[] {
  const parts = Array.from({ length: division }, (_, p) => startSec + (p * (endSec - startSec)) / division);
  return groove === "shuffle" ? [parts[0]!, parts[2]!] : parts;
}

function loosely(noise: Noise, timeSec: number): number {
  return Math.max(0, timeSec + noise() * LOOSENESS_SEC);
}

/** The bass has the first beat, and every other one in fours; the guitar answers, and plays the parts between. */
export function guitarPart(song: OwnSong, laid: LaidSong): Strum[] {
  const noise = seededNoise(31);
  const strums: Strum[] = laid.intro.flatMap(({ startSec, endSec, label }) => {
    const midis = voicing(label, GUITAR_MIDI);
    // Rolled from the lowest string up, each string left to ring.
    return midis.map((midi, i): Strum => {
      const fromSec = startSec + ((endSec - startSec) * i * i) / (midis.length * midis.length + 2);
      return { startSec: fromSec, endSec, midis: [midi], stroke: "down", level: 0.6 };
    });
  });
  laid.beats.forEach(({ timeSec, inBar }, i) => {
    const endSec = laid.beatEndsSec[i]!;
    const midis = voicing(laid.beatChords[i]!, GUITAR_MIDI);
    const onBass = inBar === 1 || (song.beatsPerBar === 4 && inBar === 3);
    partsOf(song, timeSec, endSec).forEach((partSec, part) => {
      const level = (part > 0 ? 0.4 : onBass ? 0.5 : 0.85) * (0.95 + 0.05 * noise());
      const stroke = part === 0 ? "down" : "up";
      strums.push({ startSec: loosely(noise, partSec), endSec: endSec + 0.02, midis, stroke, level });
    });
  });
  return strums;
}

function drumPart(song: OwnSong, laid: LaidSong): DrumHit[] {
  const noise = seededNoise(41);
  const { beatsPerBar, drumless } = song;
  if (drumless) return [];
  return laid.beats.flatMap(({ timeSec, inBar }, i): DrumHit[] => {
    const kick = inBar === 1 || (beatsPerBar === 4 && inBar === 3);
    const struck: DrumHit = kick
      ? { startSec: loosely(noise, timeSec), drum: "kick", level: inBar === 1 ? 0.9 : 0.7 }
      : { startSec: loosely(noise, timeSec), drum: song.groove === "waltz" ? "brush" : "snare", level: 0.5 };
    const hats = partsOf(song, timeSec, laid.beatEndsSec[i]!).map(
      (partSec, part): DrumHit => ({
        startSec: loosely(noise, partSec),
        drum: "hat",
        level: part === 0 ? 0.4 : 0.25,
      }),
    );
    return [struck, ...hats];
  });
}

/** Two strings of the chord at a time, swelled in; in every other bar the upper one is pulled up into its place. */
export function steelPart(song: OwnSong, laid: LaidSong): SteelNote[] {
  const notes: SteelNote[] = [];
  laid.beats.forEach(({ timeSec, inBar }, i) => {
    if (inBar !== 1) return;
    const bar = Math.floor(i / song.beatsPerBar);
    const label = laid.beatChords[i]!;
    let last = i;
    while (
      last + 1 < laid.beats.length &&
      laid.beatChords[last + 1] === label &&
      last + 1 < i + song.beatsPerBar
    )
      last++;
    const endSec = laid.beatEndsSec[last]!;
    const tones = voicing(label, STEEL_MIDI);
    const pair = [tones[bar % tones.length]!, tones[(bar + 1) % tones.length]!].sort((a, b) => a - b);
    pair.forEach((midi, string) => {
      const bent = string === 1 && bar % 2 === 1;
      const pitch = bent
        ? [
            { timeSec, midi: midi - 2 },
            { timeSec: timeSec + 0.12, midi: midi - 2 },
            { timeSec: timeSec + 0.28, midi },
          ]
        : [{ timeSec, midi }];
      notes.push({
        startSec: timeSec,
        endSec,
        pitch,
        vibrato: null,
        level: 0.6,
        swellSec: bar % 2 === 0 ? 0.08 : 0,
      });
    });
  });
  return notes;
}
