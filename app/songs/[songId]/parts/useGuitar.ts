import { useEffect, useMemo, useRef, useState } from "react";
import { whenIdle } from "@/lib/client/page/whenIdle";
import { type OnProgress, placeFinder } from "@/lib/client/places/PlaceFinder";
import type { GuitarChoice } from "@/lib/client/song/guitarChoice";
import {
  type PartOnGuitar,
  type PlacesInstead,
  partAsWritten,
  partOnGuitar,
} from "@/lib/client/song/partOnGuitar";
import type { ShownPart, SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import { numberKeyAt } from "./selection";

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
  /**
   * Finds places for what cannot be played on the other guitar, for this page alone.
   * @returns how many have one now; null where it was cancelled, or another guitar is looked at by then
   * @throws Error in words for people
   */
  placeAnew(): Promise<number | null>;
  /** A part that is on its way to another guitar, and how far it is, 0 to 1; null while none is. */
  moving: Moving | null;
  /**
   * Shows how far something is that takes long; what is quick is not shown. Nothing is begun while another is under way.
   * @returns null too where it was not begun
   */
  follow<T>(words: string, work: (onProgress: OnProgress) => Promise<T | null>): Promise<T | null>;
  /** How many places were so found. */
  anewCount: number;
  isSheetOpen: boolean;
  openSheet(isOpen: boolean): void;
}

export interface Moving {
  /** What is being done. */
  words: string;
  fraction: number;
}

const NONE: PlacesInstead = new Map();
/** It is told how far something is once it takes so long. */
const TOLD_AFTER_MS = 300;
const IDLE_AFTER_MS = 2000;

/**
 * Reads the part on the guitar that it is written for, or on another while it is shown there.
 * @param partId of the part that is in hand; another one is seen as it is written
 */
export function useGuitar(song: SongSnapshot, partId: string): Guitar {
  const { part, head, changes } = song;
  const own = head.copedent;
  const [shown, setShown] = useState<{ partId: string; on: GuitarChoice | null }>({ partId, on: null });
  const shownOn = shown.partId === partId ? shown.on : null;
  const [instead, setInstead] = useState(NONE);
  const [isSheetOpen, openSheet] = useState(false);
  const [moving, setMoving] = useState<Moving | null>(null);
  const asWritten = useMemo(() => partAsWritten(part, own), [part, own]);
  const other = shownOn?.copedent ?? null;
  const read = useMemo(
    () => (other ? partOnGuitar(part, own, other, instead) : asWritten),
    [part, own, other, instead, asWritten],
  );
  // The first part is then laid out as soon as later ones.
  useEffect(() => whenIdle(() => placeFinder().warm(own), IDLE_AFTER_MS), [own]);
  const latest = useRef({ other, part });
  latest.current = { other, part };

  async function follow<T>(
    words: string,
    work: (onProgress: OnProgress) => Promise<T | null>,
  ): Promise<T | null> {
    let fraction = 0;
    let isTold = false;
    const telling = setTimeout(() => {
      isTold = true;
      setMoving({ words, fraction });
    }, TOLD_AFTER_MS);
    try {
      return await work((done) => {
        fraction = done;
        if (isTold) setMoving({ words, fraction });
      });
    } finally {
      clearTimeout(telling);
      setMoving(null);
    }
  }

  return {
    copedent: other ?? own,
    shownOn,
    showOn(on) {
      setShown({ partId, on });
      setInstead(NONE);
    },
    read,
    asWritten,
    async placeAnew() {
      if (!other) return 0;
      const key = numberKeyAt(song, 0) ?? undefined;
      const asked = { part, from: own, to: other, key, changes };
      const found = await follow(`Finding places on ${other.name}.`, (onProgress) =>
        placeFinder().anew(asked, onProgress),
      );
      if (found === null || latest.current.other !== other) return null;
      const now = new Map(latest.current.part.map((event) => [event.id, event]));
      // What others have changed meanwhile was not asked for.
      const standing = part.filter((event) => isSameEvent(event, now.get(event.id)));
      const kept = new Map(standing.flatMap(({ id }) => (found.has(id) ? [[id, found.get(id)!]] : [])));
      setInstead(kept);
      return kept.size;
    },
    anewCount: part.filter(({ id }) => instead.has(id)).length,
    moving,
    follow,
    isSheetOpen,
    openSheet,
  };
}

function isSameEvent(one: ShownPart, other: ShownPart | undefined): boolean {
  return one === other || JSON.stringify(one) === JSON.stringify(other);
}
