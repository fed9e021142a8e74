import { useEffect, useMemo, useSyncExternalStore } from "react";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { BankNote } from "@/lib/synth/VoiceBank";
import type { Seconds } from "@/lib/units/quantities";
import type { SongGrid } from "../axis/songGrid";
import type { Player } from "../player/Player";
import { changesAlong } from "./changeNotes";
import { droneNotes } from "./droneNotes";
import { type PlaceTrial, partWith, type TrialState } from "./PlaceTrial";
import { partNotes } from "./partNotes";
import { SteelPlayer, type SteelState } from "./SteelPlayer";

/** What is played beside the record, from the song as it now is. */
export interface SteelSources {
  song: SongSnapshot;
  copedent: Copedent;
  grid: SongGrid | null;
  /** Home's tonic at a time; null where none is known. */
  tonicAt(timeSec: Seconds): string | null;
  trial: PlaceTrial;
}

/** The steel beside a player's record, for as long as the page shows it. */
export function useSteel(
  player: Player,
  { song, copedent, grid, tonicAt, trial }: SteelSources,
): SteelPlayer {
  const steel = useMemo(() => new SteelPlayer(player), [player]);
  useEffect(() => steel.attach(), [steel]);
  const tried = useTrialState(trial);
  const { part, changes } = song;
  const shiftNow = () => player.now().shiftCents;
  const shiftCents = useSyncExternalStore(player.watch, shiftNow, shiftNow);
  // In tune with the record as it is heard.
  const tuningCents = (song.tuning?.tuningCents ?? 0) + shiftCents;

  const partOf = useMemo(
    () => () => partNotes(partWith(part, tried), copedent, tuningCents),
    [part, tried, copedent, tuningCents],
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
  useEffect(() => steel.setScore({ part: partOf, band: bandOf, droneAt }), [steel, partOf, bandOf, droneAt]);
  return steel;
}

export function useSteelState(steel: SteelPlayer): SteelState {
  return useSyncExternalStore(steel.watch, steel.now, steel.now);
}

export function useTrialState(trial: PlaceTrial): TrialState {
  return useSyncExternalStore(trial.watch, trial.now, trial.now);
}
