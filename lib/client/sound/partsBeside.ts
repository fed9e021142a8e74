import type { SongPart } from "@/lib/document/read/SongSnapshot";
import { heardBeside, type PartsShown } from "../lanes/KeptParts";
import { partAsWritten } from "../song/partOnGuitar";
import type { PlayedPart } from "./PartScores";

/** The parts that sound beside the one in hand, each on its own instrument; what that cannot play is left out. */
export function partsBeside(
  parts: readonly SongPart[],
  atHandId: string,
  shown: Pick<PartsShown, "sounding" | "isAlone" | "levels">,
): readonly PlayedPart[] {
  return heardBeside(parts, atHandId, shown).map(({ id, events, head: { copedent } }) => {
    const { flags } = partAsWritten(events, copedent);
    const playable = flags.size === 0 ? events : events.filter((event) => !flags.has(event.id));
    return { id, copedent, events: playable, level: shown.levels[id] ?? 1 };
  });
}
