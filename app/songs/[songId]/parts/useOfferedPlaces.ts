import { useEffect } from "react";
import type { PartEventFields } from "@/lib/document/commands/part";
import type { RankedPlace } from "@/lib/places/RankedPlace";
import { useDesk } from "./DeskContext";
import { placeKey, placeName } from "./placeFields";

/** Lets the places that the bench shows be tried by ear. */
export function useOfferedPlaces(
  places: readonly RankedPlace[],
  {
    about,
    isComing,
    instead,
    eventsOf,
    write,
  }: {
    /** What they are places for. */
    about: string;
    /** Whether they are still being looked for. */
    isComing: boolean;
    /** Ids of the events in whose stead one would stand. */
    instead: readonly string[];
    eventsOf(place: RankedPlace): readonly PartEventFields[];
    /** @returns whether it was written */
    write(place: RankedPlace): boolean;
  },
): void {
  const { trial } = useDesk();
  // With every drawing, since what a place would be hangs on all that the bench looks at.
  useEffect(() => {
    trial.offers({
      about,
      isComing,
      instead,
      places: places.map((place) => ({
        key: placeKey(place),
        name: placeName(place),
        events: () => eventsOf(place),
        write: () => write(place),
      })),
    });
  });
  useEffect(() => () => trial.offers({ about: "", isComing: false, instead: [], places: [] }), [trial]);
}
