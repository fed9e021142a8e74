import type { Place } from "@/lib/places/Place";
import { whyNoPlaces } from "@/lib/places/rankPlaces";
import { type PassageWay, placePassage } from "../song/placePassage";
import { placesToShow, rankAround } from "../song/rankAround";
import type { BenchAnswer, BenchQuestion } from "./BenchQuestion";

/** For a place from which the glides that follow cannot be played. */
const CANNOT_GO_ON = 20;

/** Where notes lie, for the bench. @throws HarteError on a chord label that cannot be read */
export function answerBench(question: BenchQuestion): BenchAnswer {
  const { copedent, midis, handed, key, changes, kept, locks, slants, count } = question;
  const known = new Map<string, PassageWay | null>();
  const wayFrom = (first: Place): PassageWay | null => {
    if (handed.length === 0) return null;
    const where = [first.fret, first.frets, first.strings, first.changes].join(";");
    const around = { key, changes, kept, first };
    const found = known.get(where) ?? placePassage(copedent, handed, around).ways[0] ?? null;
    known.set(where, found);
    return found;
  };
  const glides = handed.some((note) => note.glides.length > 0);
  const onward = glides ? (place: Place) => wayFrom(place)?.cost ?? CANNOT_GO_ON : undefined;
  const ranked = rankAround(copedent, midis, { ...question, onward, locks });
  const places = placesToShow(ranked, count);
  return {
    places,
    ways: places.map(wayFrom),
    easiestCost: ranked[0]?.cost ?? 0,
    whyNone: midis.length > 0 && places.length === 0 ? whyNoPlaces(copedent, midis, locks, slants) : null,
  };
}
