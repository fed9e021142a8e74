import { printed } from "@/lib/client/format/format";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import type { Naming } from "@/lib/fit/fitWords";
import { changeText } from "./changeWords";
import { keyAt, numberKeyAt } from "./selection";

/** How notes and chords are called at a moment of the song: by its home, or in letters where that is not seen, with signs as printed. */
export function namingAt(song: SongSnapshot, timeSec: number): Naming {
  const key = keyAt(song, timeSec);
  const numberKey = numberKeyAt(song, timeSec);
  return {
    key,
    print: printed,
    chord: (label) => {
      const { degree, rest, letters } = changeText(label, numberKey);
      return letters ? `${degree}${rest} (${letters})` : `${degree}${rest}`;
    },
  };
}
