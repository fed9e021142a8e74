import { useRef, useState } from "react";
import { InTurn } from "@/lib/client/requests/InTurn";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api } from "@/lib/contracts/api";
import type { UsualCopedent } from "@/lib/contracts/copedents";

/** On which guitar new songs of one's own start, chosen as often and as fast as one likes: the last choice stands. */
export function useUsualCopedent(kept: UsualCopedent) {
  const [state, setState] = useState({ shown: kept, isSaved: false, fault: null as string | null });
  const turn = useRef<InTurn<UsualCopedent>>(null);
  const choose = (next: UsualCopedent): void => {
    turn.current ??= new InTurn(
      kept,
      (wish) => request("PUT", api.usualCopedent(), wish),
      ({ shown, isSettled, fault }) =>
        setState({
          shown,
          isSaved: isSettled && fault === null,
          fault: fault === null ? null : wordsOf(fault),
        }),
    );
    void turn.current.want(next);
  };
  return { ...state, choose };
}

/** What choosing a guitar as one's usual one does, and who sees its chart then. */
export function usualWords(usual: UsualCopedent): string {
  if (usual === null) return "New songs that you add start on the first E9 preset.";
  if ("presetId" in usual) return "New songs that you add start on it.";
  return "New songs that you add start on it; whoever is in the song's book then sees its chart.";
}
