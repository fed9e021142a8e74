import { fretWords } from "@/lib/client/song/wayWords";
import { fretOn, fretsOf, settleFrets } from "@/lib/instrument/frets";
import type { RankedPlace } from "@/lib/places/RankedPlace";

/** A place as fields of an event of the part. */
export function fieldsOf(place: RankedPlace) {
  const strings = [...place.strings].sort((a, b) => a - b);
  return {
    strings,
    ...settleFrets(strings.map((string) => fretOn(place, string))),
    changes: [...place.changes],
  };
}

/** The same for the same place. */
export function placeKey(place: RankedPlace): string {
  return `${fretsOf(place).join("-")}.${place.strings.join("-")}.${place.changes.join("")}`;
}

/** A place's name as its card has it: strings, fret, pedals. */
export function placeName(place: RankedPlace): string {
  const { strings, ...frets } = fieldsOf(place);
  return `${strings.join("·")} fret ${fretWords(frets)} ${place.changes.join("+")}`.trim();
}
