import { useEffect, useMemo, useState, useSyncExternalStore } from "react";
import type { ShownPart, SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { BankNote } from "@/lib/synth/StringSet";
import type { Seconds } from "@/lib/units/quantities";
import type { SongGrid } from "../axis/songGrid";
import type { Player } from "../player/Player";
import { changesAlong } from "./changeNotes";
import { droneNotes } from "./droneNotes";
import { PartScores, type PlayedPart } from "./PartScores";
import { type PlaceTrial, partWith, type TrialState } from "./PlaceTrial";
import { SteelPlayer, type SteelState } from "./SteelPlayer";

/** What is played beside the record, from the song as it now is. */
export interface SteelSources {
  song: SongSnapshot;
  /** The part in hand, as it is seen. */
  atHand: PlayedPart<ShownPart>;
  /** Those that sound beside it. */
  beside: readonly PlayedPart[];
  grid: SongGrid | null;
  /** Home's tonic at a time; null where none is known. */
  tonicAt(timeSec: Seconds): string | null;
  trial: PlaceTrial;
}

/** The parts beside a player's record, for as long as the page shows it. */
export function useSteel(
  player: Player,
  { song, atHand, beside, grid, tonicAt, trial }: SteelSources,
): SteelPlayer {
  const steel = useMemo(() => new SteelPlayer(player), [player]);
  useEffect(() => steel.attach(), [steel]);
  const tried = useTrialState(trial);
  const { changes } = song;
  const shiftNow = () => player.now().shiftCents;
  const shiftCents = useSyncExternalStore(player.watch, shiftNow, shiftNow);
  // In tune with the record as it is heard.
  const tuningCents = (song.tuning?.tuningCents ?? 0) + shiftCents;

  const [scores] = useState(() => new PartScores());
  const { id, events, copedent, level } = atHand;
  const inHand = useMemo(() => {
    const isTried = tried.tried !== null;
    // A place is tried by ear: it is heard, however low the part is turned.
    return { id, copedent, level: isTried ? 1 : level, events: partWith(events, tried) };
  }, [id, events, copedent, level, tried]);
  const parts = useMemo(
    () => scores.of([inHand, ...beside], tuningCents),
    [scores, inHand, beside, tuningCents],
  );
  const bandOf = useMemo(() => {
    const downbeatsSec = grid?.bars.map(({ startSec }) => startSec) ?? [];
    return () => changesAlong(changes, downbeatsSec, tuningCents);
  }, [changes, grid, tuningCents]);
  const droneAt = useMemo(() => {
    const made = new Map<string, BankNote[]>();
    return (timeSec: Seconds) => {
      const tonic = tonicAt(timeSec);
      if (tonic === null) return [];
      const notes = made.get(tonic) ?? droneNotes(tonic, tuningCents);
      made.set(tonic, notes);
      return notes;
    };
  }, [tonicAt, tuningCents]);
  useEffect(() => steel.setScore({ parts, band: bandOf, droneAt }), [steel, parts, bandOf, droneAt]);
  return steel;
}

export function useSteelState(steel: SteelPlayer): SteelState {
  return useSyncExternalStore(steel.watch, steel.now, steel.now);
}

export function useTrialState(trial: PlaceTrial): TrialState {
  return useSyncExternalStore(trial.watch, trial.now, trial.now);
}
