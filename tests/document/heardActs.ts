import {
  addBassNote,
  inkBassNotes,
  moveBassBoundary,
  rubOutBassNote,
  setBassPitch,
} from "@/lib/document/commands/bass";
import { mergeChanges, moveChangeBoundary } from "@/lib/document/commands/changeBounds";
import {
  addChange,
  inkChange,
  inkChanges,
  rubOutChange,
  setChangeLabel,
  splitChange,
} from "@/lib/document/commands/changes";
import { inkHome, rubOutHome, setHome } from "@/lib/document/commands/homes";
import { giveToSteel, setNoteRole } from "@/lib/document/commands/noteRoles";
import { addNote, editNote, inkNotes, rubOutNote } from "@/lib/document/commands/notes";
import { copyStretches, writeChanges } from "@/lib/document/commands/runs";
import {
  addSection,
  inkSections,
  moveSectionBoundary,
  renameSections,
  rubOutSection,
  setSectionMove,
} from "@/lib/document/commands/sections";
import { inkGrid, inkTuning, setGrid, setTuning } from "@/lib/document/commands/whole";
import { writePassage } from "@/lib/document/commands/writePassage";
import { readSong } from "@/lib/document/read/readSong";
import type { Dice } from "./dice";
import { type Act, LABELS, someId } from "./draws";
import { heardNote, type Replica } from "./replicas";

const changeId = (on: Replica, dice: Dice) => someId(readSong(on.doc).changes, dice);
const bassId = (on: Replica, dice: Dice) => someId(readSong(on.doc).bass, dice);
const noteId = (on: Replica, dice: Dice) => {
  const { notes, bandNotes } = readSong(on.doc);
  return someId([...notes, ...bandNotes], dice);
};
const sectionId = (on: Replica, dice: Dice) => someId(readSong(on.doc).sections, dice);
const homeId = (on: Replica, dice: Dice) => someId(readSong(on.doc).homes, dice);
function note(dice: Dice) {
  const startSec = dice.timeSec();
  const endSec = startSec + dice.next() * 2;
  const glide = { kind: dice.of(["pedal", "bar", "unsure"] as const), durationSec: dice.next() };
  const glides = Array.from({ length: dice.below(3) }, (_, index) => ({
    ...glide,
    toMidi: 60 + dice.below(12),
    atSec: startSec + index * dice.next(),
  }));
  return { startSec, endSec, midi: 60 + dice.below(24) / 2, glides };
}

/** Two that follow each other, now and then without the one or the other. */
function neighbours(list: readonly { id: string }[], dice: Dice): [string, string] {
  const index = dice.below(Math.max(1, list.length - 1));
  return [list[index]?.id ?? "nobody", list[index + 1]?.id ?? "nobody"];
}
function edge(list: readonly { id: string }[], dice: Dice): [string | null, string | null] {
  const [left, right] = neighbours(list, dice);
  return dice.of([
    [left, right],
    [left, null],
    [null, right],
  ]);
}

/** Stretches one after the other, now and then with a gap, now and then none. */
function someRun(dice: Dice) {
  let startSec = dice.timeSec();
  return Array.from({ length: dice.below(4) }, () => {
    startSec += dice.of([0, 0, 0.5]);
    const endSec = startSec + 0.25 + dice.next();
    const stretch = { startSec, endSec };
    startSec = endSec;
    return stretch;
  });
}

/** Every command about what is heard. */
export const HEARD_ACTS: Readonly<Record<string, Act>> = {
  inkChange: (on, dice) => inkChange(on.ctx, changeId(on, dice)),
  inkChanges: (on, dice) => inkChanges(on.ctx, [changeId(on, dice), changeId(on, dice)]),
  setChangeLabel: (on, dice) => setChangeLabel(on.ctx, changeId(on, dice), dice.of(LABELS)),
  addChange: (on, dice) =>
    addChange(on.ctx, { startSec: dice.timeSec(), endSec: dice.timeSec(), label: dice.of(LABELS) }),
  splitChange: (on, dice) => splitChange(on.ctx, changeId(on, dice), dice.timeSec()),
  mergeChanges: (on, dice) => mergeChanges(on.ctx, ...neighbours(readSong(on.doc).changes, dice)),
  moveBoundary: (on, dice) =>
    moveChangeBoundary(on.ctx, ...neighbours(readSong(on.doc).changes, dice), dice.timeSec()),
  moveEnd: (on, dice) => moveChangeBoundary(on.ctx, changeId(on, dice), null, dice.timeSec()),
  moveStart: (on, dice) => moveChangeBoundary(on.ctx, null, changeId(on, dice), dice.timeSec()),
  rubOutChange: (on, dice) => rubOutChange(on.ctx, changeId(on, dice)),
  inkBassNotes: (on, dice) => inkBassNotes(on.ctx, [bassId(on, dice), bassId(on, dice)]),
  setBassPitch: (on, dice) => setBassPitch(on.ctx, bassId(on, dice), 36 + dice.below(12)),
  addBassNote: (on, dice) =>
    addBassNote(on.ctx, { startSec: dice.timeSec(), endSec: dice.timeSec(), midi: 36 + dice.below(12) }),
  moveBassBoundary: (on, dice) =>
    moveBassBoundary(on.ctx, ...edge(readSong(on.doc).bass, dice), dice.timeSec()),
  rubOutBassNote: (on, dice) => rubOutBassNote(on.ctx, bassId(on, dice)),
  inkNotes: (on, dice) => inkNotes(on.ctx, [noteId(on, dice), noteId(on, dice)]),
  editNote: (on, dice) => {
    const name = dice.of(["startSec", "endSec", "midi", "glides"] as const);
    return editNote(on.ctx, noteId(on, dice), { [name]: note(dice)[name] });
  },
  addNote: (on, dice) => addNote(on.ctx, note(dice)),
  rubOutNote: (on, dice) => rubOutNote(on.ctx, noteId(on, dice)),
  hearPassage: (on, dice) => {
    const startSec = dice.below(4);
    const endSec = startSec + 1 + dice.below(3);
    const starts = Array.from(
      { length: dice.below(5) },
      () => startSec + (dice.below(3) + dice.next() / 20) / 2,
    );
    const notes = starts
      .filter((each) => each < endSec)
      .map((each) => heardNote(each, 60 + dice.below(3) / 2, { steel: dice.of([0.9, 0.1]) }));
    return writePassage(on.ctx, { startSec, endSec, version: "test 1", notes });
  },
  setNoteRole: (on, dice) => setNoteRole(on.ctx, [noteId(on, dice)], dice.of(["steel", "band"])),
  giveToSteel: (on, dice) => giveToSteel(on.ctx, note(dice)),
  inkSections: (on, dice) => inkSections(on.ctx, [sectionId(on, dice), sectionId(on, dice)]),
  renameSections: (on, dice) =>
    renameSections(on.ctx, [sectionId(on, dice), sectionId(on, dice)], dice.of(["Verse", "Chorus", " "])),
  addSection: (on, dice) =>
    addSection(on.ctx, { startSec: dice.timeSec(), endSec: dice.timeSec(), label: dice.of(["Tag", "A"]) }),
  moveSectionBoundary: (on, dice) =>
    moveSectionBoundary(on.ctx, ...edge(readSong(on.doc).sections, dice), dice.timeSec()),
  setSectionMove: (on, dice) => setSectionMove(on.ctx, sectionId(on, dice), dice.below(13) - 6),
  writeChanges: (on, dice) =>
    writeChanges(
      on.ctx,
      someRun(dice).map((each) => ({ ...each, label: dice.of(LABELS) })),
    ),
  copyStretches: (on, dice) => {
    const startSec = dice.timeSec();
    const mark = dice.of(["ink", "pencil"] as const);
    return copyStretches(
      on.ctx,
      { startSec, endSec: startSec + dice.next() * 4 },
      {
        changes: someRun(dice).map((each) => ({ ...each, label: dice.of(LABELS), mark })),
        bass: someRun(dice).map((each) => ({ ...each, midi: 36 + dice.below(12), mark })),
      },
    );
  },
  rubOutSection: (on, dice) => rubOutSection(on.ctx, sectionId(on, dice)),
  inkHome: (on, dice) => inkHome(on.ctx, homeId(on, dice)),
  setHome: (on, dice) =>
    setHome(on.ctx, {
      startSec: dice.timeSec(),
      tonic: dice.of(["G", "Eb", "F#"]),
      mode: dice.of(["major", "minor"]),
    }),
  moveHome: (on, dice) =>
    setHome(on.ctx, { startSec: dice.timeSec(), tonic: "A", mode: "minor" }, homeId(on, dice)),
  rubOutHome: (on, dice) => rubOutHome(on.ctx, homeId(on, dice)),
  inkTuning: (on) => inkTuning(on.ctx, readSong(on.doc).tuning?.id ?? "nobody"),
  setTuning: (on, dice) => setTuning(on.ctx, dice.below(101) - 50),
  inkGrid: (on) => inkGrid(on.ctx, readSong(on.doc).grid?.id ?? "nobody"),
  setGrid: (on, dice) => {
    const beatsPerBar = dice.of([2, 3, 4]);
    const beatsSec = Array.from({ length: 1 + dice.below(8) }, (_, index) => index / 2);
    return setGrid(on.ctx, {
      beatsSec,
      inBar: beatsSec.map((_, index) => (index % beatsPerBar) + 1),
      beatsPerBar,
      division: dice.of([2, 3, undefined]),
    });
  },
};
