import { encodeChord } from "../metrics/harteEncoding";
import type { ReferenceBeat } from "../Subject";
import type { OwnSong } from "./songs";

/** Silence before the first sound. */
const LEAD_IN_SEC = 0.4;
const TAIL_SEC = 0.9;

export interface LaidChord {
  startSec: number;
  endSec: number;
  label: string;
}

/** A song laid out in time: everything that its players and its annotations agree on. */
export interface LaidSong {
  durationSec: number;
  beats: ReferenceBeat[];
  /** Where each beat ends: the next one, or the end of the last bar. */
  beatEndsSec: number[];
  /** Of each beat, the chord in it. */
  beatChords: string[];
  /** Of each beat, the note that the bass walks on, or null. */
  walk: (number | null)[];
  /** Chords of the free introduction; none where there is none. */
  intro: LaidChord[];
  chords: LaidChord[];
  homes: { startSec: number; endSec: number; tonic: string; mode: string }[];
  sections: LaidChord[];
}

export function layOut(song: OwnSong): LaidSong {
  const intro: LaidChord[] = [];
  let timeSec = LEAD_IN_SEC;
  for (const { label, lengthSec } of song.freeIntro ?? []) {
    intro.push({ startSec: timeSec, endSec: timeSec + lengthSec, label });
    timeSec += lengthSec;
  }
  const bandSec = timeSec;
  const bars = song.sections.flatMap((section) => section.bars.map((bar) => ({ bar, section })));
  const beatCount = bars.length * song.beatsPerBar;
  const laid: LaidSong = {
    ...{ durationSec: 0, beats: [], beatEndsSec: [], beatChords: [], walk: [], intro, homes: [] },
    chords: [{ startSec: 0, endSec: LEAD_IN_SEC, label: "N" }, ...intro],
    sections: intro.length > 0 ? [{ startSec: 0, endSec: bandSec, label: "intro" }] : [],
  };
  let lastSection: object | null = null;
  for (const { bar, section } of bars) {
    const tokens = bar.split(" ");
    const chords = tokens.filter((token) => !token.startsWith("^"));
    const walked = tokens.filter((token) => token.startsWith("^")).map((token) => Number(token.slice(1)));
    // The first home and section begin with the record.
    const fromSec = laid.homes.length === 0 ? 0 : timeSec;
    if (section !== lastSection) {
      laid.sections.push({
        startSec: laid.sections.length === 0 ? 0 : timeSec,
        endSec: timeSec,
        label: section.label,
      });
      const { tonic, mode } = section.home;
      const home = laid.homes.at(-1);
      if (home?.tonic !== tonic || home.mode !== mode)
        laid.homes.push({ startSec: fromSec, endSec: timeSec, tonic, mode });
      lastSection = section;
    }
    for (let beat = 0; beat < song.beatsPerBar; beat++) {
      const label = chords[Math.floor((beat * chords.length) / song.beatsPerBar)]!;
      const endSec = timeSec + beatLengthSec(song, laid.beats.length / beatCount);
      laid.beats.push({ timeSec, inBar: beat + 1 });
      laid.beatEndsSec.push(endSec);
      laid.beatChords.push(label);
      laid.walk.push(walked[beat - (song.beatsPerBar - walked.length)] ?? null);
      laid.chords.push({ startSec: timeSec, endSec, label });
      timeSec = endSec;
    }
    laid.sections.at(-1)!.endSec = timeSec;
    laid.homes.at(-1)!.endSec = timeSec;
  }
  laid.durationSec = timeSec + TAIL_SEC;
  laid.sections.at(-1)!.endSec = laid.durationSec;
  laid.homes.at(-1)!.endSec = laid.durationSec;
  return laid;
}

/** The tempo moves evenly from the first to the last beat. */
function beatLengthSec({ bpm, bpmAtEnd = bpm }: OwnSong, through: number): number {
  return 60 / (bpm + (bpmAtEnd - bpm) * through);
}

/** The bass's note for a chord, E1 to D#2: its bass, or its fifth above the root. */
export function bassMidi(label: string, which: "bass" | "fifth"): number {
  const { root, bass, semitones } = encodeChord(label);
  const fifth = semitones[7] === 1 ? 7 : semitones[6] === 1 ? 6 : 8;
  return 28 + ((((root + (which === "bass" ? bass : fifth) - 28) % 12) + 12) % 12);
}

/** The notes of a chord within the octave above a note, lowest first. */
export function voicing(label: string, aboveMidi: number): number[] {
  const { root, semitones } = encodeChord(label);
  return semitones
    .flatMap((on, i) => (on === 1 ? [aboveMidi + ((((root + i - aboveMidi) % 12) + 12) % 12)] : []))
    .sort((a, b) => a - b);
}
