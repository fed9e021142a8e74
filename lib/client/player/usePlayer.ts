import { useEffect, useState, useSyncExternalStore } from "react";
import type { Seconds } from "@/lib/units/quantities";
import { Player } from "./Player";
import type { PlayerState } from "./PlayerState";

/** The player of this page, closed with it; null until the page is in the browser. */
export function usePlayer(url: string, durationSec: Seconds): Player | null {
  const [player, setPlayer] = useState<Player | null>(null);
  useEffect(() => {
    const made = new Player(url, durationSec);
    setPlayer(made);
    return () => {
      made.close();
      setPlayer(null);
    };
  }, [url, durationSec]);
  return player;
}

/** What the transport shows. */
export function usePlayerState(player: Player): PlayerState {
  return useSyncExternalStore(player.watch, player.now, player.now);
}
