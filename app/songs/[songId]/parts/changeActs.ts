import { snapToBeat } from "@/lib/client/axis/songGrid";
import { nextGuess } from "@/lib/client/song/guesses";
import { plainChords } from "@/lib/client/song/plainChords";
import { mergeChanges, moveChangeBoundary } from "@/lib/document/commands/changeBounds";
import {
  addChange,
  inkChanges,
  rubOutChange,
  setChangeLabel,
  splitChange,
} from "@/lib/document/commands/changes";
import { changeText } from "./changeWords";
import type { Desk } from "./DeskContext";
import { fitActs } from "./fitActs";
import { guessActs } from "./guessActs";
import { numberKeyAt, selectedSpan } from "./selection";
import { stretchActs } from "./stretchActs";

/** The acts on the selected change; each does nothing where none is selected. */
export function changeActs(desk: Desk) {
  const { opened, selection, select, setTyping, grid, player, say, mayWrite, triedChord, setTriedChord } =
    desk;
  const shared = stretchActs(desk, "change", opened.song.changes, {
    ink: inkChanges,
    rubOut: rubOutChange,
    moveEdge: moveChangeBoundary,
  });
  const { chosen: change, next } = shared;
  const { run } = opened.acts;

  return {
    ...shared,
    change,
    type(text: string) {
      if (change && desk.mayWrite) setTyping(text);
    },
    /** Says that it is another of the machine's guesses. */
    take(label: string) {
      if (change) run((ctx) => setChangeLabel(ctx, change.id, label));
    },
    /** Sounds a chord in the place of the change; nothing is written. */
    tryChord(label: string) {
      if (!change) return;
      setTriedChord(label);
      fitActs(desk).hearChord(label, change);
      const { degree, rest, letters } = changeText(label, numberKeyAt(opened.song, change.startSec));
      say(
        `Trying ${degree}${rest}${letters && `, ${letters}`}, not written. Z tries the next${mayWrite ? ", Enter inks it" : ""}.`,
      );
    },
    /** Sounds the 1, the 4, the 5 in turn. */
    tryNextChord() {
      if (!change) return;
      const key = numberKeyAt(opened.song, change.startSec);
      if (!key) return say("Home is covered here, so there is no 1, 4 and 5 of it to try. Guess home first.");
      const chords = plainChords(key);
      this.tryChord(chords[(chords.indexOf(triedChord ?? "") + 1) % chords.length]!);
    },
    /** Inks the chord that is tried. @returns whether there was one */
    takeTried(): boolean {
      if (!change || !triedChord || !mayWrite) return false;
      if (run((ctx) => setChangeLabel(ctx, change.id, triedChord))) say("It is in ink.");
      setTriedChord(null);
      return true;
    },
    /** Goes round the machine's guesses. */
    takeNextGuess() {
      if (!change) return;
      const guess = nextGuess(change.guesses, ({ label }) => label === change.label);
      if (guess) run((ctx) => setChangeLabel(ctx, change.id, guess.label));
      else say("The machine had no other guess here. Type a number or letters.");
    },
    /** At the playhead where it lies inside, else at the beat nearest the middle. */
    split() {
      if (!change) return;
      const { startSec, endSec } = change;
      const isInside = player.timeSec > startSec + 0.05 && player.timeSec < endSec - 0.05;
      const wantedSec = isInside ? player.timeSec : (startSec + endSec) / 2;
      const beatSec = grid ? snapToBeat(grid, wantedSec) : wantedSec;
      const atSec = beatSec > startSec + 0.05 && beatSec < endSec - 0.05 ? beatSec : wantedSec;
      run((ctx) => splitChange(ctx, change.id, atSec));
    },
    merge() {
      if (change && next) run((ctx) => mergeChanges(ctx, change.id, next.id));
      else if (change) say("This is the last change: there is none after it to merge with.");
    },
    /** Writes a change over the selected span, to be named at once. */
    add() {
      const span = selectedSpan(opened.song, selection, grid);
      if (!span || guessActs(desk).keepsFrom("changes", [span])) return;
      const ids = run((ctx) => addChange(ctx, { startSec: span.startSec, endSec: span.endSec, label: "N" }));
      if (!ids?.[0]) return;
      select({ kind: "change", id: ids[0], stretch: 0 });
      setTyping("");
    },
  };
}
