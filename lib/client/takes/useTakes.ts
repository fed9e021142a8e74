import { useCallback, useEffect, useRef, useState, useSyncExternalStore } from "react";
import { whenIdle } from "../page/whenIdle";
import type { Player } from "../player/Player";
import type { SongConnection } from "../sync/songProvider";
import type { Watched } from "../watched/Watched";
import type { SongTakes, TakeEvents } from "./SongTakes";

/** The takes of a song once the page has had this long for itself. */
const AFTER_MS = 2_000;

export interface TakesHere {
  /** Null until they are fetched. */
  takes: SongTakes | null;
  /** Fetches them at once. @throws where the page's own code cannot be fetched */
  want(): Promise<SongTakes>;
}

/** The takes of a song, for as long as the page shows it: fetched when the page has nothing else to do, or when they are wanted. */
export function useTakes(
  of: { songId: string; userId: string; name: string },
  player: Player,
  connection: SongConnection,
  events: TakeEvents,
): TakesHere {
  const { songId, userId, name } = of;
  const [takes, setTakes] = useState<SongTakes | null>(null);
  const latest = useRef(events);
  latest.current = events;
  const latestTakes = useRef(takes);
  latestTakes.current = takes;
  const coming = useRef<Promise<SongTakes> | null>(null);

  const want = useCallback(() => {
    coming.current ??= import("./SongTakes").then(({ SongTakes }) => {
      const opened = new SongTakes(
        player,
        { songId, userId, name },
        {
          say: (words) => latest.current.say(words),
          recorded: (take) => latest.current.recorded(take),
        },
      );
      void opened.shelf.open();
      setTakes(opened);
      return opened;
    });
    coming.current.catch(() => {
      coming.current = null;
    });
    return coming.current;
  }, [player, songId, userId, name]);

  useEffect(() => {
    const stop = whenIdle(() => void want().catch(() => {}), AFTER_MS);
    // A page that is left for good, or put away, gets no other chance to keep what is being recorded.
    const onHide = () => latestTakes.current?.recorder.stopNow();
    window.addEventListener("pagehide", onHide);
    return () => {
      stop();
      window.removeEventListener("pagehide", onHide);
      void coming.current?.then((opened) => opened.close());
      coming.current = null;
      setTakes(null);
    };
  }, [want]);

  useEffect(() => {
    if (!takes) return;
    let before = { told: connection.takesTold, status: connection.status };
    return connection.subscribe(() => {
      const now = { told: connection.takesTold, status: connection.status };
      const isBack = now.status === "connected" && before.status !== "connected";
      if (now.told !== before.told || isBack) void takes.shelf.refresh();
      before = now;
    });
  }, [takes, connection]);

  return { takes, want };
}

const never = () => () => {};

/** A state of the takes as it is now; what stands in for it while they are not fetched. */
export function useTakesState<State extends object>(
  watched: Watched<State> | undefined,
  atFirst: State,
): State {
  const first = () => atFirst;
  return useSyncExternalStore(watched?.watch ?? never, watched?.now ?? first, first);
}
