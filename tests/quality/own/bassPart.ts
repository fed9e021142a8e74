import type { BassNote } from "@/lib/synth/bass";
import { bassMidi, type LaidSong } from "./layOut";
import type { OwnSong } from "./songs";

const LEVEL = 0.8;

/** The bass line of a song, note by note; what is annotated is what is played. */
export function bassPart({ groove, beatsPerBar }: OwnSong, laid: LaidSong): BassNote[] {
  const notes: BassNote[] = [];
  laid.beats.forEach(({ timeSec, inBar }, i) => {
    const label = laid.beatChords[i]!;
    const newChord = inBar === 1 || laid.beatChords[i - 1] !== label;
    const walked = laid.walk[i];
    let midi: number | null = null;
    if (typeof walked === "number") midi = walked;
    else if (newChord) midi = bassMidi(label, "bass");
    else if (groove === "two-beat" && inBar === 3) {
      midi = label.includes("/") ? bassMidi(label, "bass") : bassMidi(label, "fifth");
    } else if (groove === "six-eight" && inBar === beatsPerBar) midi = bassMidi(label, "fifth");
    else if (groove === "shuffle") midi = bassMidi(label, inBar % 2 === 1 ? "bass" : "fifth");
    const last = notes.at(-1);
    if (midi === null) {
      // Held on, or left to ring for the first beat of two.
      if (last && groove === "held") last.endSec = laid.beatEndsSec[i]!;
      return;
    }
    const endSec = timeSec + 0.92 * (laid.beatEndsSec[i]! - timeSec);
    notes.push({ startSec: timeSec, endSec, midi, level: LEVEL });
  });
  return notes;
}
