import { stepSnap } from "@/lib/client/axis/snap";
import { stepBeat } from "@/lib/client/axis/songGrid";
import { keepInView } from "@/lib/client/axis/timeAxis";
import { caretFrom } from "@/lib/client/song/caretFrom";
import { askedActs } from "./askedActs";
import { bassActs } from "./bassActs";
import { beatActs } from "./beatActs";
import { onBeat, onTapping } from "./beatKeys";
import { changeActs } from "./changeActs";
import type { Desk } from "./DeskContext";
import { homeActs } from "./homeActs";
import { isOnButton } from "./keyTarget";
import { withQuestions } from "./laterQuestions";
import { type Marked, onMark } from "./markKeys";
import { noteActs } from "./noteActs";
import { onEvents, onPart, type PartTyping } from "./partKeys";
import { passageActs } from "./passageActs";
import { runActs } from "./runActs";
import { sectionActs } from "./sectionActs";
import { selectedSpan } from "./selection";
import { soundActs } from "./soundActs";
import { studyActs } from "./studyActs";
import { onTake } from "./takeKeys";

/** Keys by what is selected. @returns whether the key was taken */
export function onLane(desk: Desk, event: KeyboardEvent, typed: PartTyping): boolean {
  if (onTapping(desk, event)) return true;
  switch (desk.selection?.kind) {
    case "caret":
      return onPart(desk, event, typed);
    case "events":
      return onEvents(desk, event);
    case "beat":
      return onBeat(desk, event) || onChanges(desk, event);
    case "bass":
      return onBass(desk, event);
    case "note":
    case "band":
      return onNotes(desk, event);
    case "span":
      return onSpan(desk, event) || onChanges(desk, event);
    case "section":
      return onSections(desk, event);
    case "home":
      return onHome(desk, event);
    case "study":
      return onStudies(desk, event);
    case "question":
      return onQuestions(desk, event);
    case "take":
      return onTake(desk, event);
    default:
      return onChanges(desk, event);
  }
}

/** What the kinds that lie along the axis answer to alike. */
interface Along extends Marked {
  step(direction: -1 | 1): void;
}

/** Steps, the playhead, and ways to the part and to home; then ink, rubbing out and edges. */
function onAlong(desk: Desk, event: KeyboardEvent, acts: Along, isChosen: boolean): boolean {
  switch (event.key) {
    case "ArrowLeft":
    case "ArrowRight": {
      const direction = event.key === "ArrowLeft" ? -1 : 1;
      if (event.shiftKey && event.altKey) selectOn(desk, direction);
      else if (event.shiftKey) movePlayhead(desk, direction);
      else acts.step(direction);
      return true;
    }
    case "p":
    case "P":
      toPart(desk);
      return true;
    case "h":
    case "H":
      if (event.shiftKey) homeActs(desk).addHere();
      else homeActs(desk).choose();
      return true;
    case "x":
    case "X":
      beatActs(desk).chooseHere();
      return true;
  }
  return isChosen && desk.mayWrite && onMark(event, acts);
}

/** Alt with an arrow up or down moves a note by a half step, with Shift by an octave. */
function onShift(desk: Desk, event: KeyboardEvent, acts: { shift(semitones: number): void }): boolean {
  if (!event.altKey || (event.key !== "ArrowUp" && event.key !== "ArrowDown")) return false;
  if (desk.mayWrite) acts.shift((event.key === "ArrowUp" ? 1 : -1) * (event.shiftKey ? 12 : 1));
  return true;
}

function onChanges(desk: Desk, event: KeyboardEvent): boolean {
  const acts = changeActs(desk);
  if (event.key === "ArrowDown") {
    if (!bassActs(desk).chooseAt(placeSec(desk))) toNotes(desk);
    return true;
  }
  if (event.key === "ArrowUp")
    return askedActs(desk).chooseOver(place(desk)) || sectionActs(desk).chooseAt(placeSec(desk));
  if (event.key === "F2" && event.shiftKey) {
    runActs(desk).open();
    return true;
  }
  if (event.key === "Enter" && !isOnButton(event) && acts.takeTried()) return true;
  if (acts.change && event.key.toLowerCase() === "z") {
    acts.tryNextChord();
    return true;
  }
  if (onAlong(desk, event, acts, acts.change !== null)) return true;
  if (acts.change && event.key.toLowerCase() === "v") {
    soundActs(desk).hearChange(event.shiftKey);
    return true;
  }
  if (!acts.change || !desk.mayWrite) return false;
  switch (event.key) {
    case "o":
    case "O":
      acts.takeNextGuess();
      return true;
    case "s":
    case "S":
      acts.split();
      return true;
    case "m":
    case "M":
      acts.merge();
      return true;
    case "F2":
      acts.type("");
      return true;
    default:
      // A number or a letter begins the chord that is to stand here.
      if (!/^[1-7A-Ga-g#♭♯]$/.test(event.key) && event.key !== "n" && event.key !== "N") return false;
      acts.type(event.key);
      return true;
  }
}

function onBass(desk: Desk, event: KeyboardEvent): boolean {
  const acts = bassActs(desk);
  if (onShift(desk, event, acts)) return true;
  if (event.key === "ArrowUp") return changeActs(desk).chooseAt(placeSec(desk));
  if (event.key === "ArrowDown") {
    toNotes(desk);
    return true;
  }
  if (onAlong(desk, event, acts, acts.note !== null)) return true;
  return desk.mayWrite && acts.type(event.key);
}

function onNotes(desk: Desk, event: KeyboardEvent): boolean {
  const acts = noteActs(desk);
  if (onShift(desk, event, acts)) return true;
  if (event.key === "ArrowUp")
    return bassActs(desk).chooseAt(placeSec(desk)) || changeActs(desk).chooseAt(placeSec(desk));
  if (event.key === "ArrowDown") {
    toPart(desk);
    return true;
  }
  if (onAlong(desk, event, acts, acts.chosen !== null)) return true;
  switch (event.key.toLowerCase()) {
    case "s":
      acts.hear("alone", event.shiftKey);
      return true;
    case "r":
      acts.hear("record", event.shiftKey);
      return true;
    case "t":
      if (desk.mayWrite) acts.turnOver();
      return true;
    case "w":
      if (desk.mayWrite) acts.toBench();
      return true;
    default:
      return desk.mayWrite && acts.type(event.key);
  }
}

/** Keys for a selected stretch, and for the steel's notes in it. */
function onSpan(desk: Desk, event: KeyboardEvent): boolean {
  const acts = passageActs(desk);
  switch (event.key.toLowerCase()) {
    case "s":
      acts.hear("alone");
      return true;
    case "r":
      acts.hear("record");
      return true;
    case "w":
      if (desk.mayWrite) acts.write();
      return true;
    case "n":
      if (!desk.laidOut || !desk.mayWrite) return false;
      acts.nextWay();
      return true;
    case "f":
      if (desk.mayWrite) beatActs(desk).free();
      return true;
    default:
      return false;
  }
}

function onSections(desk: Desk, event: KeyboardEvent): boolean {
  const acts = sectionActs(desk);
  if (event.key === "ArrowDown") return changeActs(desk).chooseAt(placeSec(desk));
  if (onAlong(desk, event, acts, acts.section !== null)) return true;
  if (acts.section && onSpan(desk, event)) return true;
  if (event.key !== "F2" || !desk.mayWrite) return false;
  acts.type("");
  return true;
}

/** A passage stands in ink: Enter has nothing to do. */
function onStudies(desk: Desk, event: KeyboardEvent): boolean {
  const acts = studyActs(desk);
  if (event.key === "ArrowDown")
    return sectionActs(desk).chooseAt(placeSec(desk)) || changeActs(desk).chooseAt(placeSec(desk));
  if (onAlong(desk, event, { ...acts, ink() {} }, acts.chosen !== null) || onSpan(desk, event)) return true;
  if (event.key !== "F2" || !desk.mayWrite) return false;
  acts.type("");
  return true;
}

/** Enter answers: there is nothing to ink. */
function onQuestions(desk: Desk, event: KeyboardEvent): boolean {
  const acts = askedActs(desk);
  if (event.key === "ArrowUp") return sectionActs(desk).chooseAt(placeSec(desk));
  if (event.key === "ArrowDown") return changeActs(desk).chooseAt(placeSec(desk));
  const rubOut = () => void withQuestions(desk, (later) => later.takeBack());
  const marks = { step: acts.step, ink: acts.reply, rubOut };
  if (onAlong(desk, event, marks, acts.chosen !== null)) return true;
  if (!acts.chosen || !desk.mayWrite) return false;
  if (event.key === "F2") void withQuestions(desk, (later) => later.reword());
  else if (event.key.toLowerCase() === "s") void withQuestions(desk, (later) => later.settle());
  else return false;
  return true;
}

function onHome(desk: Desk, event: KeyboardEvent): boolean {
  const acts = homeActs(desk);
  if (event.key === "ArrowDown") return changeActs(desk).chooseAt(placeSec(desk));
  if (onAlong(desk, event, acts, acts.home !== null)) return true;
  if (event.key.toLowerCase() !== "o" || !desk.mayWrite) return false;
  acts.takeNextGuess();
  return true;
}

/** What is selected, as a stretch; the playhead's moment where nothing is. */
function place({ opened, selection, grid, player }: Desk) {
  const { timeSec } = player;
  return selectedSpan(opened.song, selection, grid) ?? { startSec: timeSec, endSec: timeSec + 0.02 };
}

/** Where that begins. */
function placeSec(desk: Desk): number {
  return place(desk).startSec;
}

/** By a beat; half a second where no beats are known. */
function movePlayhead({ player, grid, axis }: Desk, direction: -1 | 1): void {
  const { timeSec } = player;
  player.seek(grid ? stepBeat(grid, timeSec, direction) : timeSec + direction * 0.5);
  axis.change((now) => keepInView(now, player.timeSec, 60));
}

/** Draws the end of a selected stretch along; the first press selects from the selection or the playhead on. */
function selectOn({ opened, selection, select, grid, snap, player, axis }: Desk, direction: -1 | 1): void {
  const step = (sec: number, way: -1 | 1) => stepSnap(grid, snap.now().snap, sec, way);
  const { startSec, endSec } = selectedSpan(opened.song, selection, grid) ?? {
    startSec: player.timeSec,
    endSec: player.timeSec,
  };
  const shortestSec = step(startSec, 1);
  const toSec = Math.min(player.durationSec, Math.max(shortestSec, step(endSec, direction)));
  select({ kind: "span", startSec, endSec: toSec });
  axis.change((now) => keepInView(now, toSec, 60));
}

/** To the heard notes; to the part where there are none. */
function toNotes(desk: Desk): void {
  if (!noteActs(desk).chooseAt(placeSec(desk))) toPart(desk);
}

/** Puts the caret into the part: where the selection begins, else at the playhead. */
function toPart(desk: Desk): void {
  const { opened, grid, copedent, select } = desk;
  select({ kind: "caret", caret: caretFrom(opened.song.part, placeSec(desk), grid, copedent) });
}
