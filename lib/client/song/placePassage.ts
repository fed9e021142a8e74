import type { PartEventFields } from "@/lib/document/commands/part";
import type { ShownChange, ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { settleFrets } from "@/lib/instrument/frets";
import { allStages } from "@/lib/instrument/stages";
import type { Place, Placed } from "@/lib/places/Place";
import type { PartLocks } from "@/lib/places/PlaceLocks";
import { placeSequence } from "@/lib/places/placeSequence";
import type { Key } from "@/lib/theory/key";
import { type Moment, type PassageNote, passageMoments } from "./passageMoments";
import { type PlacedMoment, passagePart } from "./passagePart";
import { areDifferent, chosenPlaces, type FoundWay, waysThrough } from "./waysThrough";

/** One way to play a passage. */
export interface PassageWay {
  /** What is to be written into the part, in order of time. */
  events: PartEventFields[];
  /** Cost of the way, as `placeSequence` reckons; comparable with that of other ways of the same passage. */
  cost: number;
}

export interface PlacedPassage {
  /** Cheapest first, each different in kind from those before it; none where nothing can be played. */
  ways: PassageWay[];
  /** How many of the notes are in no way of them: off the neck, or more at once than a hand picks. */
  leftOutCount: number;
}

/** What stands about a passage. */
export interface PassageAround {
  /** Home; undefined where it is not seen: then no position is told as one of it. */
  key: Key | undefined;
  changes: readonly ShownChange[];
  /** Events of the part that stay as they are, about the passage and within it; the passage is laid around them. */
  kept: readonly ShownPart[];
  /** Where its first stroke lies, where that is settled. */
  first?: Place;
  /** What a person holds to in the whole of it. */
  locks?: PartLocks;
}

/** Elsewhere is so many frets below or above the middle of a way. */
const ELSEWHERE_FRETS = 3;
/** What was heard this near to a kept event is that event: hearing is less sure of when than hands are. */
const SAME_STROKE_SEC = 0.08;

/**
 * Where a heard passage lies on the neck, taken as a whole: the exact cheapest way, and the cheapest of those that
 * differ in kind from it.
 * @throws HarteError on a chord label that cannot be read
 */
export function placePassage(
  copedent: Copedent,
  notes: readonly PassageNote[],
  { key, changes, kept, first, locks }: PassageAround,
): PlacedPassage {
  const heard = passageMoments(notes, changes);
  if (first && heard[0]) heard[0] = atPlace(heard[0], first);
  const known = withKnown(copedent, heard, kept);
  const moments = known.map(({ moment }) => moment);
  const placed = placeSequence(copedent, moments, { key, locks });
  const found = waysThrough(placed);
  // In a long passage, what differs at one place mostly comes back to the same: then the whole is tried elsewhere.
  if (found.length === 1 && found[0]!.places.some((place) => place !== null)) {
    for (const frets of fretsElsewhere(found[0]!.places, copedent, locks?.frets)) {
      const elsewhere = placeSequence(copedent, moments, { key, locks: { ...locks, frets } });
      const way = { places: chosenPlaces(elsewhere), cost: elsewhere.totalCost };
      const isWhole = found[0]!.places.every((place, at) => place === null || way.places[at] !== null);
      if (isWhole && found.every(({ places }) => areDifferent(places, way.places))) found.push(way);
    }
  }
  const ways = found
    .sort((a, b) => a.cost - b.cost)
    .map(({ places, cost }) => {
      const written = known.map(
        ({ moment, isWritten }, at): PlacedMoment => ({ moment, isWritten, place: places[at]! }),
      );
      return { events: passagePart(written, notes), cost };
    });
  const played = new Set(
    known.flatMap(({ moment }, at) => {
      const { candidates, chosenIndex } = placed.events[at]!;
      return (candidates[chosenIndex ?? -1]?.sounding ?? []).map((sounding) => moment.voices[sounding]);
    }),
  );
  return {
    ways: ways.filter(({ events }) => events.length > 0),
    leftOutCount: notes.filter((_, voice) => !played.has(voice)).length,
  };
}

/** A moment whose place is settled. */
function atPlace(moment: Moment, place: Place): Moment {
  const { notesMidi } = place;
  const voices = notesMidi.map((midi) => moment.voices[moment.notesMidi.indexOf(midi)] ?? -1);
  return { ...moment, notesMidi, voices, place };
}

/** The moments with the kept events among them; what was heard at the time of one stands there already. */
function withKnown(
  copedent: Copedent,
  heard: readonly Moment[],
  kept: readonly ShownPart[],
): { moment: Moment; isWritten: boolean }[] {
  const written = kept.flatMap((event) => {
    const place = playableHere(copedent, event);
    return place ? [{ event, ...place }] : [];
  });
  const all: { moment: Moment; isWritten: boolean }[] = [];
  const isSame = (one: { startSec: number }, other: { startSec: number }) =>
    Math.abs(one.startSec - other.startSec) < SAME_STROKE_SEC;
  const inTime = [
    ...heard.filter((moment) => !written.some(({ event }) => isSame(event, moment))),
    ...written,
  ].sort((a, b) => ("event" in a ? a.event : a).startSec - ("event" in b ? b.event : b).startSec);
  for (const each of inTime) {
    if (!("event" in each)) {
      all.push({ moment: relinked(each, all.at(-1)?.moment), isWritten: false });
      continue;
    }
    const { startSec, endSec } = each.event;
    const there = heard.find((moment) => isSame(each.event, moment));
    const sounding = there ?? all.at(-1)?.moment;
    const voices = each.notesMidi.map((midi) => sounding?.voices[sounding.notesMidi.indexOf(midi)] ?? -1);
    const { place, notesMidi } = each;
    all.push({ moment: { startSec, endSec, voices, notesMidi, place }, isWritten: true });
  }
  return all;
}

/** A moment whose links name the moment that now stands before it; what is not in that one is picked, or is let go. */
function relinked(moment: Moment, before: Moment | undefined): Moment {
  const links = moment.voices.map((voice, note) => {
    const link = moment.soundsOn?.[note] ?? null;
    const from = before?.voices.indexOf(voice) ?? -1;
    return {
      note,
      link: link && from >= 0 ? { ...link, from } : null,
      isGone: link !== null && from < 0 && !link.glides,
    };
  });
  const kept = links.filter(({ isGone }) => !isGone);
  return {
    ...moment,
    voices: kept.map(({ note }) => moment.voices[note]!),
    notesMidi: kept.map(({ note }) => moment.notesMidi[note]!),
    soundsOn: kept.map(({ link }) => link),
  };
}

/** A written event as a place on this instrument; null where it has none of its strings. Changes it lacks are passed over. */
function playableHere(
  copedent: Copedent,
  { strings, fret, frets, changes }: ShownPart,
): { place: Placed; notesMidi: number[] } | null {
  const known = allStages(copedent).map(({ id }) => id);
  const engaged = changes.filter((id) => known.includes(id));
  const pitches = stoppedPitches(copedent, { strings, fret, frets, changes: engaged });
  const sounding = strings.flatMap((string, at) => {
    const midi = pitches[at] ?? null;
    return midi === null ? [] : [{ string, midi, fret: frets?.[at] ?? fret }];
  });
  if (sounding.length === 0) return null;
  const held = settleFrets(sounding.map((each) => each.fret));
  const place = { ...held, changes: engaged, strings: sounding.map(({ string }) => string) };
  return { place, notesMidi: sounding.map(({ midi }) => midi) };
}

/** The frets below and above those about which a way lies, within those that are allowed. */
function fretsElsewhere(
  places: FoundWay["places"],
  { fretCount }: Copedent,
  allowed = { from: 0, to: fretCount },
): { from: number; to: number }[] {
  const frets = places.flatMap((place) => (place ? [place.fret] : [])).sort((a, b) => a - b);
  const middle = frets[frets.length >> 1] ?? 0;
  const { from, to } = allowed;
  return [
    { from, to: Math.min(to, middle - ELSEWHERE_FRETS) },
    { from: Math.max(from, middle + ELSEWHERE_FRETS), to },
  ].filter((range) => range.from <= range.to);
}
