import {
  addBassNote,
  inkBassNotes,
  moveBassBoundary,
  rubOutBassNote,
  setBassPitch,
} from "@/lib/document/commands/bass";
import { midiToPitchClass, nearestPitch } from "@/lib/units/pitch";
import type { Desk } from "./DeskContext";
import { guessActs } from "./guessActs";
import { pitchClassTyped } from "./pitchClassTyped";
import { chordAt, selectedSpan } from "./selection";
import { stretchActs } from "./stretchActs";

/** Where a bass note is written that has no neighbour to be near to: about the middle of a bass guitar's low strings. */
const USUAL_MIDI = 38;

/** The acts on the selected note of the bass line; each does nothing where none is selected. */
export function bassActs(desk: Desk) {
  const { opened, selection, select, grid } = desk;
  const { song } = opened;
  const shared = stretchActs(desk, "bass", song.bass, {
    ink: inkBassNotes,
    rubOut: rubOutBassNote,
    moveEdge: moveBassBoundary,
  });
  const { chosen: note } = shared;
  const { run } = opened.acts;

  return {
    ...shared,
    note,
    /** Moves it up or down by half steps. */
    shift(semitones: number) {
      if (note) run((ctx) => setBassPitch(ctx, note.id, note.midi + semitones));
    },
    /** Takes a number of home or a letter, in the octave nearest to where it was. @returns whether it was one */
    type(typed: string): boolean {
      const pitchClass = note && pitchClassTyped(desk, typed, note.startSec);
      if (!note || pitchClass === null) return false;
      if (pitchClass === "unseen") return true;
      run((ctx) => setBassPitch(ctx, note.id, nearestPitch(pitchClass, note.midi)));
      return true;
    },
    /** Writes a note over the selected span: the bass of the chord there, near the note before. */
    add() {
      const span = selectedSpan(song, selection, grid);
      if (!span || guessActs(desk).keepsFrom("changes", [span])) return;
      const before = song.bass.findLast((each) => each.startSec < span.startSec);
      const near = before?.midi ?? USUAL_MIDI;
      const midi = nearestPitch(chordAt(song, span.startSec)?.bassPitchClass ?? midiToPitchClass(near), near);
      const { startSec, endSec } = span;
      const ids = run((ctx) => addBassNote(ctx, { startSec, endSec, midi }));
      if (ids?.[0]) select({ kind: "bass", id: ids[0], stretch: 0 });
    },
  };
}
