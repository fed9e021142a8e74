import type { MeasuredSong } from "@/lib/contracts/labels";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import { precisionRecall, share } from "@/lib/scoring/matching";
import { countNotes } from "@/lib/scoring/noteScore";
import { asScored } from "@/lib/scoring/scoredNote";
import { countSteel, type SteelCounts } from "@/lib/scoring/steelCounts";
import { steelReference } from "@/lib/scoring/steelReference";
import type { NotesOf } from "./hearNotesOf";
import { rounded } from "./rounded";

/** How many were asked for and found, and the share of it; null where none was asked for. */
export interface Found {
  asked: number;
  found: number;
  share: number | null;
}

/** How well the notes of a record are heard, over the stretches that people have gone over. */
export interface NoteMeasures {
  goneOver: { stretches: number; seconds: number };
  /** Notes that nobody has settled, in the whole record: they lie outside of the stretches. */
  openNotes: number;
  /** The steel's notes as people settled them, found by whatever note was heard, the steel's or the band's. */
  notes: Found;
  /** The same, found by what the ear says is the steel's; precision over all that it says is. */
  steel: { precision: number; recall: number; f: number; asked: number; given: number; found: number };
  /** Pairs of which both notes are found as the steel's. */
  pairs: Found;
  /** Glides within 150 ms and 50 cents. */
  glides: Found & { given: number };
  /** Glides of which people said what made them, pedal or bar, and ears can tell: found, and told as people did. */
  pedalOrBar: Found;
}

/** Scores what was heard of a record against its labels, by the scorer of the quality report: 50 ms, 50 cents. */
export function measureNotes(song: MeasuredSong, { notes, tuningCents }: NotesOf): NoteMeasures {
  const labels = song.labels.note ?? [];
  const stretches = song.notesGoneOver ?? [];
  const steel = labels.flatMap(({ settled }) => (settled?.whose === "steel" ? [settled] : []));
  const reference = steelReference(steel);
  // The record's own tuning as people see it, the ear's as it hears it.
  const shift = (tuningCents - (song.tuningCents ?? tuningCents)) / 100;
  const all = notes.flatMap((note) => asScored(note, shift));
  const own = notes.filter(isSteel).flatMap((note) => asScored(note, shift));
  const counts = stretches.map((stretch) => countSteel(reference.notes, reference.glides, own, stretch));
  const sum = (of: (count: SteelCounts) => number) => counts.reduce((total, count) => total + of(count), 0);
  const found = (asked: (count: SteelCounts) => number, hits: (count: SteelCounts) => number): Found =>
    foundOf(sum(asked), sum(hits));

  const [asked, given, hits] = [
    sum(({ notes: { attacks } }) => attacks),
    sum((count) => count.notes.given),
    sum((count) => count.notes.found),
  ];
  const { precision, recall, f } = precisionRecall(hits, asked, given);
  const byAny = stretches.reduce((total, at) => total + countNotes(reference.notes, all, at).found, 0);
  return {
    goneOver: {
      stretches: stretches.length,
      seconds: rounded(stretches.reduce((total, { startSec, endSec }) => total + endSec - startSec, 0)),
    },
    openNotes: labels.filter(({ act }) => act === "open").length,
    notes: foundOf(asked, byAny),
    steel: {
      precision: rounded(precision),
      recall: rounded(recall),
      f: rounded(f),
      asked,
      given,
      found: hits,
    },
    pairs: found(
      (count) => count.notes.pairs,
      (count) => count.notes.pairsFound,
    ),
    glides: {
      ...found(
        ({ glides: { wanted } }) => wanted,
        (count) => count.glides.found,
      ),
      given: sum((count) => count.glides.given),
    },
    pedalOrBar: found(
      ({ glides: { clear } }) => clear,
      ({ glides: { clearOfRightKind } }) => clearOfRightKind,
    ),
  };
}

function foundOf(asked: number, hits: number): Found {
  const part = share(hits, asked);
  return { asked, found: hits, share: part === null ? null : rounded(part) };
}
