import type { CommandResult } from "@/lib/document/commands/act";
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
import { look, setCovers } from "@/lib/document/commands/covers";
import { addGuess } from "@/lib/document/commands/guesses";
import { setPartCopedent } from "@/lib/document/commands/head";
import { inkHome, rubOutHome, setHome } from "@/lib/document/commands/homes";
import { giveToSteel, setNoteRole } from "@/lib/document/commands/noteRoles";
import { addNote, editNote, inkNotes, rubOutNote } from "@/lib/document/commands/notes";
import {
  addPartEvent,
  addPartEvents,
  editPartEvent,
  inkPartEvents,
  rubOutPartEvent,
} from "@/lib/document/commands/part";
import { copyPartEvents, editPartEvents, rubOutPartEvents } from "@/lib/document/commands/partMany";
import { countThrough, keepCheck, keepListening } from "@/lib/document/commands/practice";
import { restore } from "@/lib/document/commands/restore";
import { copyStretches, writeChanges } from "@/lib/document/commands/runs";
import {
  addSection,
  inkSections,
  moveSectionBoundary,
  renameSections,
  rubOutSection,
  setSectionMove,
} from "@/lib/document/commands/sections";
import { addStudies, editStudy, rubOutStudy } from "@/lib/document/commands/studies";
import { inkGrid, inkTuning, setGrid, setTuning } from "@/lib/document/commands/whole";
import { writePassage } from "@/lib/document/commands/writePassage";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import { WHOLE_SONG } from "@/lib/document/records/covers";
import { LISTENING_AT_FIRST } from "@/lib/document/records/ListeningSettings";
import { RECORD_KINDS } from "@/lib/document/records/storage";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { E9 } from "@/lib/instrument/copedents/e9";
import { GUESS_LANES } from "@/lib/lesson/GuessValue";
import { TECHNIQUES } from "@/lib/notation/Technique";
import { heardNote, type Replica } from "./replicas";

/** Numbers from 0 up to 1, the same for the same seed. mulberry32 by Tommy Ettinger, public domain. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Draws from what a seed gives. */
export class Dice {
  constructor(readonly next: () => number) {}
  below(count: number): number {
    return Math.floor(this.next() * count);
  }
  of<T>(list: readonly T[]): T {
    return list[this.below(list.length)]!;
  }
  /** Seconds of a ten-second record, most of them on quarters. */
  timeSec(): number {
    return this.next() < 0.7 ? this.below(41) / 4 : this.next() * 10;
  }
}

const LABELS = ["G:maj", "C:maj", "D:7", "A:min/b3", "E:min7", "N"];
type Act = (on: Replica, dice: Dice) => CommandResult | null;

/** The id of something that is shown, now and then of something that is not there. */
function someId(list: readonly { id: string }[], dice: Dice): string {
  return list.length === 0 || dice.next() < 0.05 ? "nobody" : dice.of(list).id;
}
const changeId = (on: Replica, dice: Dice) => someId(readSong(on.doc).changes, dice);
const bassId = (on: Replica, dice: Dice) => someId(readSong(on.doc).bass, dice);
const noteId = (on: Replica, dice: Dice) => {
  const { notes, bandNotes } = readSong(on.doc);
  return someId([...notes, ...bandNotes], dice);
};
const sectionId = (on: Replica, dice: Dice) => someId(readSong(on.doc).sections, dice);
const homeId = (on: Replica, dice: Dice) => someId(readSong(on.doc).homes, dice);
const eventId = (on: Replica, dice: Dice) => someId(readSong(on.doc).part, dice);
const studyId = (on: Replica, dice: Dice) => someId(readSong(on.doc).studies, dice);

function study(dice: Dice) {
  return { startSec: dice.timeSec(), endSec: dice.timeSec(), name: dice.of(["", "Intro", " Tag ", "Verse"]) };
}

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

function event(dice: Dice) {
  const startSec = dice.timeSec();
  const strings = [...new Set([1 + dice.below(10), 1 + dice.below(10)])];
  const changes = dice.of([[], ["A"], ["A", "B"], ["E"]]);
  const articulation = dice.of(["pick", "slide", "press", "tie"] as const);
  const techniques = TECHNIQUES.filter(() => dice.next() < 0.3);
  return {
    startSec,
    endSec: startSec + dice.next() * 2,
    strings,
    fret: dice.below(13),
    frets: dice.of([null, null, strings.map(() => dice.below(13))]),
    changes,
    articulation,
    techniques,
  };
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

/** Every command that a person has, each with arguments drawn from what the person sees. */
export const ACTS: Readonly<Record<string, Act>> = {
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
  addPartEvent: (on, dice) => addPartEvent(on.ctx, event(dice), dice.of(["ink", "ink", "pencil"])),
  editPartEvent: (on, dice) => {
    const { startSec, endSec, ...rest } = event(dice);
    const name = dice.of([
      "startSec",
      "endSec",
      "fret",
      "strings",
      "changes",
      "frets",
      "articulation",
      "techniques",
    ] as const);
    const id = eventId(on, dice);
    if (name === "frets") {
      const strings = readSong(on.doc).part.find((each) => each.id === id)?.writtenStrings ?? [];
      return editPartEvent(on.ctx, id, { frets: strings.map(() => dice.below(6)) });
    }
    return editPartEvent(on.ctx, id, { [name]: { startSec, endSec, ...rest }[name] });
  },
  inkPartEvents: (on, dice) => inkPartEvents(on.ctx, [eventId(on, dice), eventId(on, dice)]),
  addPartEvents: (on, dice) =>
    addPartEvents(on.ctx, [event(dice), event(dice)], dice.of(["ink", "pencil", "pencil"]), [
      eventId(on, dice),
      eventId(on, dice),
    ]),
  editPartEvents: (on, dice) => {
    const bySec = dice.below(5) / 4;
    const { techniques, articulation, fret } = event(dice);
    const fields = dice.of([{ techniques }, { articulation }, { fret }, null]);
    const { part } = readSong(on.doc);
    const ids = [eventId(on, dice), eventId(on, dice), eventId(on, dice)];
    return editPartEvents(
      on.ctx,
      new Map(
        ids.map((id) => {
          const { startSec = 0, endSec = 1 } = part.find((each) => each.id === id) ?? {};
          return [id, fields ?? { startSec: startSec + bySec, endSec: endSec + bySec }];
        }),
      ),
    );
  },
  copyPartEvents: (on, dice) =>
    copyPartEvents(
      on.ctx,
      [1, 2].map(() => ({ event: event(dice), mark: dice.of(["ink", "pencil"]) })),
    ),
  rubOutPartEvents: (on, dice) => rubOutPartEvents(on.ctx, [eventId(on, dice), eventId(on, dice)]),
  setPartCopedent: (on, dice) => {
    const { strings, fret, frets, changes } = event(dice);
    const laidAnew = new Map(
      dice
        .of([[], [eventId(on, dice), eventId(on, dice)]])
        .map((id) => [id, { strings, fret, frets, changes }]),
    );
    const chart = dice.of([writeChart(E9), { strings: [64, 60, 57, 55, 52, 48] }, { strings: [] }]);
    return setPartCopedent(on.ctx, { from: { kind: "own", id: "mine", ownerId: on.by }, chart }, laidAnew);
  },
  rubOutPartEvent: (on, dice) => rubOutPartEvent(on.ctx, eventId(on, dice)),
  addStudies: (on, dice) => addStudies(on.ctx, dice.of([[study(dice)], [study(dice), study(dice)]])),
  editStudy: (on, dice) => {
    const name = dice.of(["startSec", "endSec", "name"] as const);
    return editStudy(on.ctx, studyId(on, dice), { [name]: study(dice)[name] });
  },
  rubOutStudy: (on, dice) => rubOutStudy(on.ctx, studyId(on, dice)),
  countThrough: (on, dice) => {
    const times = dice.below(4);
    const device = `device${on.doc.clientID}`;
    return countThrough(on.ctx, studyId(on, dice), device, { times, fullSpeedTimes: dice.below(3) });
  },
  keepListening: (on, dice) => {
    const settings = { ...LISTENING_AT_FIRST, speed: dice.below(18) / 10 };
    return keepListening(on.ctx, studyId(on, dice), { settings, isLooped: dice.next() < 0.5 });
  },
  keepCheck: (on, dice) => keepCheck(on.ctx, studyId(on, dice), { [eventId(on, dice)]: "sign" }),
  setCovers: (on, dice) =>
    setCovers(
      on.ctx,
      { target: dice.of([WHOLE_SONG, studyId(on, dice)]), lanes: [dice.of(GUESS_LANES)] },
      dice.of(["students", "self"]),
      dice.next() < 0.7,
    ),
  look: (on, dice) => {
    const [startSec, endSec] = [dice.timeSec(), dice.timeSec()];
    const place = {
      target: dice.of([WHOLE_SONG, studyId(on, dice)]),
      stretch: dice.of([{ startSec, endSec }, null]),
    };
    const { guesses } = readSong(on.doc);
    const told = guesses.length > 0 && dice.next() < 0.5 ? [dice.of(guesses)] : [];
    return look(
      on.ctx,
      dice.of(GUESS_LANES),
      [place],
      told.map(({ id, value }) => ({ id, comparison: "same", answer: value })),
    );
  },
  addGuess: (on, dice) => {
    const startSec = dice.timeSec();
    const said = dice.of([
      { lane: "home", value: { tonic: "G", mode: "minor" } },
      { lane: "changes", value: { label: dice.of(LABELS) } },
      { lane: "heard", value: { midis: [60 + dice.below(12)] } },
      { lane: "places", value: { strings: [1 + dice.below(10)], fret: dice.below(13), changes: [] } },
    ] as const);
    const target = dice.of([WHOLE_SONG, studyId(on, dice)]);
    return addGuess(on.ctx, {
      ...said,
      target,
      startSec,
      endSec: dice.timeSec(),
      fit: null,
      hintCount: dice.below(3),
    });
  },
  restore: (on, dice) => {
    const kind = dice.of(RECORD_KINDS);
    return restore(
      on.ctx,
      kind,
      someId(
        readRubbedOut(on.doc, kind).map((each) => each.record),
        dice,
      ),
    );
  },
};
