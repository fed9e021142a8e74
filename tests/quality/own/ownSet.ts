import type { Damage, Subject, SubjectSet } from "../Subject";
import { bassPart } from "./bassPart";
import { layOut } from "./layOut";
import { OWN_SONGS, type OwnSong } from "./songs";

const DAMAGED_COPIES: readonly { song: string; damage: Damage }[] = [
  { song: "two-beat", damage: "old-record" },
  { song: "waltz", damage: "noise" },
  { song: "shuffle", damage: "small-speaker" },
  { song: "inversions", damage: "old-record" },
];

/**
 * Short songs of our own, played when they are heard, with exact annotations from the same numbers. They are plain
 * on purpose: a floor that no change may fall through, not a measure of how well real records are heard.
 */
export function ownSet(): SubjectSet {
  const whole = OWN_SONGS.map((song) => subjectOf(song, null));
  const copies = DAMAGED_COPIES.map(({ song, damage }) =>
    subjectOf(OWN_SONGS.find(({ id }) => id === song)!, damage),
  );
  return { name: "own", subjects: [...whole, ...copies] };
}

function subjectOf(song: OwnSong, damage: Damage | null): Subject {
  const laid = layOut(song);
  const { durationSec, beats, chords, homes, sections } = laid;
  const [home] = homes;
  const bass = bassPart(song, laid).map(({ startSec, endSec, midi }) => ({
    ...{ startSec, endSec, midi },
    kind: "attack" as const,
    role: "bass",
  }));
  return {
    id: damage ? `${song.id}, ${damage}` : song.id,
    group: damage ? "damaged" : "whole",
    durationSec,
    source: { kind: "own", song: song.id, damage },
    truth: {
      tuningCents: song.tuningCents,
      // A song of two homes has no one key.
      ...(homes.length === 1 && home ? { key: { tonic: home.tonic, mode: home.mode } } : {}),
      ...{ homes, beats, chords, bass },
      tempoBpm: (song.bpm + (song.bpmAtEnd ?? song.bpm)) / 2,
      beatsPerBar: song.beatsPerBar,
      division: song.division,
      // A song in which nothing comes again tells nothing of sections.
      ...(sections.length > 1 ? { sections } : {}),
    },
  };
}
