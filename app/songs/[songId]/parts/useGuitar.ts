import { useMemo, useState } from "react";
import type { GuitarChoice } from "@/lib/client/song/guitarChoice";
import {
  type PartOnGuitar,
  type PlacesInstead,
  partAsWritten,
  partOnGuitar,
} from "@/lib/client/song/partOnGuitar";
import { placeAnew } from "@/lib/client/song/placeAnew";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { C_MAJOR } from "@/lib/theory/key";
import { homeAt } from "./selection";

/** The guitar on which the part is seen on this page, and how it lies there. */
export interface Guitar {
  /** What is seen now: the part's own, or the one that it is shown on. */
  copedent: Copedent;
  /** The other guitar that the part is shown on, for this page alone; null while it is seen as it is written. */
  shownOn: GuitarChoice | null;
  showOn(choice: GuitarChoice | null): void;
  /** The part as it is seen. */
  read: PartOnGuitar;
  /** The part as it is written. */
  asWritten: PartOnGuitar;
  /** Finds places for what cannot be played on the other guitar, for this page alone. @returns how many have one now */
  placeAnew(): number;
  /** How many places were so found. */
  anewCount: number;
  isSheetOpen: boolean;
  openSheet(isOpen: boolean): void;
}

const NONE: PlacesInstead = new Map();

/** Reads the part on the guitar that it is written for, or on another while it is shown there. */
export function useGuitar(song: SongSnapshot): Guitar {
  const { part, head, changes } = song;
  const own = head.copedent;
  const [shownOn, setShownOn] = useState<GuitarChoice | null>(null);
  const [instead, setInstead] = useState(NONE);
  const [isSheetOpen, openSheet] = useState(false);
  const asWritten = useMemo(() => partAsWritten(part, own), [part, own]);
  const other = shownOn?.copedent ?? null;
  const read = useMemo(
    () => (other ? partOnGuitar(part, own, other, instead) : asWritten),
    [part, own, other, instead, asWritten],
  );
  return {
    copedent: other ?? own,
    shownOn,
    showOn(choice) {
      setShownOn(choice);
      setInstead(NONE);
    },
    read,
    asWritten,
    placeAnew() {
      if (!other) return 0;
      const key = homeAt(song, 0) ?? C_MAJOR;
      const found = placeAnew(partOnGuitar(part, own, other), own, other, { key, changes });
      setInstead(found);
      return found.size;
    },
    anewCount: part.filter(({ id }) => instead.has(id)).length,
    isSheetOpen,
    openSheet,
  };
}
