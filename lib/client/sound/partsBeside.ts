import type { SongPart } from "@/lib/document/read/SongSnapshot";
import { heardBeside, type PartsShown } from "../lanes/KeptParts";
import { playableOn } from "../song/partOnGuitar";
import type { PlayedPart } from "./PartScores";

/** The parts that sound beside the one in hand, each on its own instrument; what that cannot play is left out. */
export function partsBeside(
  parts: readonly SongPart[],
  atHandId: string,
  shown: Pick<PartsShown, "sounding" | "isAlone" | "levels">,
): readonly PlayedPart[] {
  return heardBeside(parts, atHandId, shown).map(({ id, events, head: { copedent } }) => ({
    ...{ id, copedent, level: shown.levels[id] ?? 1 },
    events: playableOn(events, copedent),
  }));
}
