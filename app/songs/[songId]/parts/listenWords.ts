import { percentText } from "@/lib/client/format/format";
import type { Listen } from "@/lib/client/player/ListenMix";
import { soundWords } from "@/lib/client/song/partAtHand";
import { joinWords } from "@/lib/places/joinWords";
import { capital } from "./changeWords";

/**
 * What one listens to, in words.
 * @param part as what the part in hand is heard @param beside the same of those that sound with it
 */
export function listenWords(listen: Listen, part: string, beside: readonly string[] = []): string {
  switch (listen) {
    case "record":
      return "the record alone";
    case "both":
      return beside.length === 0
        ? `record left, ${part} right`
        : `record left, ${joinWords([part, ...beside].map(soundWords))} right`;
    case "parts":
      return `${togetherWords(part, beside)}, in the record's time`;
  }
}

/** Which parts sound together, in words. */
export function togetherWords(part: string, beside: readonly string[]): string {
  const words = soundWords(part);
  return beside.length === 0 ? `${words} alone` : joinWords([part, ...beside].map(soundWords));
}

/** How record and parts are weighed, in words. @param part as what the part in hand is heard */
export function balanceWords(balance: number, part: string): string {
  if (balance === 0) return `Record and ${part} alike.`;
  const less = percentText(1 - Math.abs(balance));
  return balance < 0 ? `Record whole, ${part} ${less}.` : `${capital(part)} whole, record ${less}.`;
}
