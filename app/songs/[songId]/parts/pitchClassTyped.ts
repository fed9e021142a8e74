import { wordsOf } from "@/lib/client/requests/request";
import { typedPitchClass } from "@/lib/client/song/typedPitch";
import type { PitchClass, Seconds } from "@/lib/units/quantities";
import type { Desk } from "./DeskContext";
import { numberKeyAt } from "./selection";

/** The note that a key names at a time; null where it names none, `unseen`, for which it has said why, for a number of a covered home. */
export function pitchClassTyped(
  { opened, say }: Desk,
  typed: string,
  timeSec: Seconds,
): PitchClass | "unseen" | null {
  try {
    return typedPitchClass(typed, numberKeyAt(opened.song, timeSec));
  } catch (thrown) {
    say(wordsOf(thrown));
    return "unseen";
  }
}
