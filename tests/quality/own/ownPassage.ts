import type { ReferenceGlide } from "@/lib/scoring/glideScore";
import type { ReferenceNote } from "@/lib/scoring/noteScore";
import type { SteelNote } from "@/lib/synth/steelPluck";
import { struckStrings } from "@/lib/synth/strum";
import type { Truth } from "../Subject";
import { bassPart } from "./bassPart";
import { layOut } from "./layOut";
import { guitarPart, steelPart } from "./playOwn";
import type { OwnSong } from "./songs";

/** Every pitched note of a song of our own from its start to its end, known because it was written. */
export function ownPassage(song: OwnSong): NonNullable<Truth["passage"]> {
  const laid = layOut(song);
  const steel = steelPart(song, laid);
  const glides = steel.flatMap(glidesOf);
  const picked = (startSec: number, endSec: number, midi: number, role: string): ReferenceNote => {
    return { startSec, endSec, midi, kind: "attack", role };
  };
  return {
    span: { startSec: 0, endSec: laid.durationSec },
    scoresAll: true,
    glides,
    notes: [
      ...steel.map(({ startSec, endSec, pitch }) => picked(startSec, endSec, pitch[0]!.midi, "steel")),
      ...steel.flatMap((note) =>
        glidesOf(note).map(
          ({ atSec, toMidi }): ReferenceNote => ({
            ...picked(atSec, note.endSec, toMidi, "steel"),
            kind: "slide",
          }),
        ),
      ),
      ...bassPart(song, laid).map(({ startSec, endSec, midi }) => picked(startSec, endSec, midi, "bass")),
      ...guitarPart(song, laid).flatMap((strum) =>
        struckStrings(strum).map(({ startSec, midi }) => picked(startSec, strum.endSec, midi, "guitar")),
      ),
    ],
  };
}

/** The steel of our own songs moves one string of two at a time, as pedals do. */
function glidesOf({ pitch }: SteelNote): ReferenceGlide[] {
  return pitch.slice(1).flatMap((to, index) => {
    const from = pitch[index]!;
    if (from.midi === to.midi) return [];
    const atSec = (from.timeSec + to.timeSec) / 2;
    return [{ atSec, toMidi: to.midi, kind: "pedal" as const, kindIsClear: true }];
  });
}
