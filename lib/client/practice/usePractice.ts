import { useCallback, useEffect, useLayoutEffect, useRef, useState, useSyncExternalStore } from "react";
import { countThrough, keepListening } from "@/lib/document/commands/practice";
import type { ShownStudy } from "@/lib/document/read/SongSnapshot";
import type { Player } from "../player/Player";
import type { SongActs } from "../song/SongActs";
import { deviceId, keepAtHand, keptAtHand } from "./keptHere";
import { type CountedHere, isLoopOf, PracticeKeeper } from "./PracticeKeeper";

/** The passage that the page is about. */
export interface AtHand {
  /** Null where none is. */
  study: ShownStudy | null;
  /** Times through that are not in the shared song yet. */
  counted: CountedHere;
  /** Takes a passage in hand: from now on it is listened to as it was last. Null puts the one at hand away. */
  take(study: TakenStudy | null): void;
}

type TakenStudy = Pick<ShownStudy, "id" | "startSec" | "endSec" | "listening">;

/**
 * Which passage is at hand, and all that is counted and kept of it; this browser knows it again when the song is opened
 * anew.
 */
export function usePractice(
  of: { songId: string; userId: string },
  { player, acts, studies }: { player: Player; acts: SongActs; studies: readonly ShownStudy[] },
): AtHand {
  const { songId, userId } = of;
  const [id, setId] = useState<string | null>(null);
  const [keeper, setKeeper] = useState<PracticeKeeper | null>(null);
  const study = studies.find((each) => each.id === id) ?? null;
  const loopOf = useRef<TakenStudy>(null);

  // Before the shared song is closed, so that the last count still reaches it.
  useLayoutEffect(() => {
    const made = new PracticeKeeper(player, {
      mayWrite: acts.mayWrite,
      count: (studyId, more) => acts.keep((ctx) => countThrough(ctx, studyId, deviceId(), more)),
      listen: (studyId, how) => acts.keep((ctx) => keepListening(ctx, studyId, how)),
    });
    const onHide = () => document.visibilityState === "hidden" && made.flush();
    document.addEventListener("visibilitychange", onHide);
    setKeeper(made);
    return () => {
      document.removeEventListener("visibilitychange", onHide);
      made.close();
    };
  }, [player, acts]);

  const take = useCallback(
    (next: TakenStudy | null) => {
      if (next && next.id === loopOf.current?.id) return setId(next.id);
      // What is set from here on is no longer how the one before is listened to.
      keeper?.take(null);
      setId(next?.id ?? null);
      keepAtHand(songId, next?.id ?? null);
      const { loop } = player.now();
      const wasLooped = loopOf.current !== null && isLoopOf(loop, loopOf.current);
      loopOf.current = next;
      // One's own way to listen to it, else that of whoever kept one last.
      const how = next?.listening.find(({ by }) => by === userId) ?? next?.listening[0];
      if (next && how?.isLooped) player.setLoop({ startSec: next.startSec, endSec: next.endSec });
      else if (wasLooped && !(next && isLoopOf(loop, next))) player.setLoop(null);
      if (how) player.setListening(how.settings);
      keeper?.take(next, how !== undefined);
    },
    [player, keeper, songId, userId],
  );

  // What was at hand when the song was last open here, once it is there.
  const isKnown = useRef(false);
  useEffect(() => {
    if (isKnown.current || !keeper || studies.length === 0) return;
    isKnown.current = true;
    const kept = studies.find((each) => each.id === keptAtHand(songId));
    if (kept) take(kept);
  }, [keeper, studies, songId, take]);

  // Ends that are moved take the loop with them; one that is rubbed out is counted no longer.
  useEffect(() => {
    const before = loopOf.current;
    if (before && study && before.id === study.id && isLoopOf(player.now().loop, before)) {
      const { startSec, endSec } = study;
      if (!isLoopOf({ startSec, endSec }, before)) player.setLoop({ startSec, endSec });
    }
    if (study || before === null) loopOf.current = study;
    keeper?.take(study, true);
  }, [study, player, keeper]);

  const counted = useSyncExternalStore(keeper?.watch ?? never, keeper?.now ?? nothing, nothing);
  return { study, counted, take };
}

const NOTHING: CountedHere = { times: 0, fullSpeedTimes: 0 };
const never = () => () => {};
const nothing = () => NOTHING;
