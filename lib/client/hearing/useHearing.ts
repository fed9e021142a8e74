import { useState } from "react";
import { api } from "@/lib/contracts/api";
import type { HearingStatus } from "@/lib/contracts/books";
import { request, wordsOf } from "../requests/request";

/** Has a song heard again, or cancels its hearing; what comes of it arrives through the shared song's line. */
export function useHearing(songId: string) {
  const [fault, setFault] = useState<string | null>(null);
  const [isAsking, setIsAsking] = useState(false);

  async function ask(method: "POST" | "DELETE") {
    setFault(null);
    setIsAsking(true);
    try {
      await request<HearingStatus>(method, api.hearing(songId));
    } catch (thrown) {
      setFault(wordsOf(thrown));
    } finally {
      setIsAsking(false);
    }
  }

  return { fault, isAsking, hearAgain: () => ask("POST"), cancel: () => ask("DELETE") };
}
