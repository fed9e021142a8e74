import type { HeardNote } from "@/lib/hearing/Hearing";
import type { Semitones } from "@/lib/units/quantities";
import { GLIDE_WINDOW_SEC, type ReferenceGlide } from "./glideScore";
import type { ReferenceNote } from "./noteScore";

/** A note of the steel that is known to be there. */
export type KnownNote = Pick<HeardNote, "startSec" | "endSec" | "midi" | "glides">;

/** Moves that are alike differ by less than this. */
const ALIKE_SEMITONES: Semitones = 0.5;

/** Known notes of the steel as what is heard is scored against: picks, and an arrival for each glide. */
export function steelReference(notes: readonly KnownNote[]): {
  notes: ReferenceNote[];
  glides: ReferenceGlide[];
} {
  return {
    notes: notes.flatMap(({ startSec, endSec, midi, glides }): ReferenceNote[] => [
      { startSec, endSec, midi, kind: "attack", role: "steel" },
      ...glides.map(
        ({ atSec, toMidi }): ReferenceNote => ({
          ...{ startSec: atSec, endSec, midi: toMidi },
          ...{ kind: "slide", role: "steel" },
        }),
      ),
    ]),
    glides: notes.flatMap((note) =>
      note.glides.map(({ atSec, toMidi, kind }, at): ReferenceGlide => {
        const moved = moveOf(note, at);
        const others = notes.filter((other) => other !== note && soundsAt(other, atSec));
        const allAlike = others.every((other) => movesAlike(other, atSec, moved));
        return {
          atSec,
          toMidi,
          kind: kind === "unsure" ? null : kind,
          kindIsClear: kind !== "unsure" && others.length > 0 && allAlike === (kind === "bar"),
        };
      }),
    ),
  };
}

/** How far its glide of that number goes. */
function moveOf({ midi, glides }: KnownNote, at: number): Semitones {
  return glides[at]!.toMidi - (glides[at - 1]?.toMidi ?? midi);
}

function soundsAt({ startSec, endSec }: KnownNote, timeSec: number): boolean {
  return startSec < timeSec && timeSec < endSec;
}

function movesAlike(note: KnownNote, atSec: number, moved: Semitones): boolean {
  return note.glides.some((glide, at) => {
    const isThen = Math.abs(glide.atSec - atSec) <= GLIDE_WINDOW_SEC;
    return isThen && Math.abs(moveOf(note, at) - moved) < ALIKE_SEMITONES;
  });
}
