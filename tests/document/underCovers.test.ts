import { describe, expect, it } from "vitest";
import { addBassNote, moveBassBoundary, rubOutBassNote } from "@/lib/document/commands/bass";
import { moveChangeBoundary } from "@/lib/document/commands/changeBounds";
import {
  addChange,
  inkChanges,
  rubOutChange,
  setChangeLabel,
  splitChange,
} from "@/lib/document/commands/changes";
import { look, setCovers } from "@/lib/document/commands/covers";
import { setPartCopedent } from "@/lib/document/commands/head";
import { inkHome, rubOutHome, setHome } from "@/lib/document/commands/homes";
import { setNoteRole } from "@/lib/document/commands/noteRoles";
import { addNote, editNote, inkNotes } from "@/lib/document/commands/notes";
import { addPartEvent, addPartEvents, editPartEvent, rubOutPartEvent } from "@/lib/document/commands/part";
import {
  copyPartEvents,
  editPartEvents,
  movePartEvents,
  rubOutPartEvents,
} from "@/lib/document/commands/partMany";
import { addPart } from "@/lib/document/commands/parts";
import { restore } from "@/lib/document/commands/restore";
import { copyStretches, writeChanges } from "@/lib/document/commands/runs";
import { addStudies } from "@/lib/document/commands/studies";
import { keepFromCovers } from "@/lib/document/commands/underCovers";
import { writePassage } from "@/lib/document/commands/writePassage";
import { readSong } from "@/lib/document/read/readSong";
import { GUESS_LANES } from "@/lib/lesson/GuessValue";
import { done, hear, heardNote, meet, registers, replica, send } from "./replicas";

const LAP = { name: "Ben's lap steel", strings: [64, 60, 57, 55, 52, 48] };
const PICK = { strings: [5], fret: 3, changes: [], articulation: "pick" as const };

/**
 * Ann teaches and has written events at 0.5, 2.5 and 6 s; all lanes of the study from 2 to 4 s are covered for ben, who
 * learns and whose commands are held to what he sees.
 */
function lesson() {
  const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
  hear(ann);
  const [study = ""] = done(addStudies(ann.ctx, [{ startSec: 2, endSec: 4, name: "Fill" }]));
  const [first = "", kept = "", last = ""] = [0.5, 2.5, 6].flatMap((startSec) =>
    done(addPartEvent(ann.ctx, { ...PICK, startSec, endSec: startSec + 0.5 })),
  );
  done(setCovers(ann.ctx, { target: study, lanes: GUESS_LANES }, "students", true));
  meet(ann, ben);
  ben.ctx.watch = keepFromCovers(ben.doc, { id: "ben", isStudent: true });
  return { ann, ben, study, first, kept, last };
}

/** All of these are refused for the cover, and leave the document as it was. */
function allRefused(on: ReturnType<typeof lesson>["ben"], ...acts: (() => { ok: boolean })[]) {
  const before = registers(on.doc);
  expect(acts.map((act) => act())).toEqual(
    acts.map(() => expect.objectContaining({ ok: false, reason: "underCover" })),
  );
  expect(registers(on.doc)).toEqual(before);
}

describe("what is covered for a person, that person's commands leave alone", () => {
  it("D58: changes and bass are neither settled, renamed, parted, moved nor rubbed out unseen", () => {
    const { ben } = lesson();
    const { ctx } = ben;
    const { changes, bass } = readSong(ben.doc);
    const [before, kept, after] = changes.map(({ id }) => id) as [string, string, string];
    allRefused(
      ben,
      () => inkChanges(ctx, [before, kept]),
      () => setChangeLabel(ctx, kept, "A:min"),
      () => splitChange(ctx, kept, 3),
      () => rubOutChange(ctx, kept),
      // The edge that a covered one shares with what is seen, from either side.
      () => moveChangeBoundary(ctx, before, kept, 1.5),
      () => moveChangeBoundary(ctx, kept, after, 4.5),
      () => addChange(ctx, { startSec: 1, endSec: 3, label: "A:min" }),
      () => writeChanges(ctx, [{ startSec: 0, endSec: 2.5, label: "A:min" }]),
      () =>
        copyStretches(
          ctx,
          { startSec: 2, endSec: 4 },
          { changes: [{ startSec: 2, endSec: 4, label: "A:min", mark: "ink" }], bass: [] },
        ),
      () => rubOutBassNote(ctx, bass[1]!.id),
      () => moveBassBoundary(ctx, null, bass[1]!.id, 1.8),
      () => addBassNote(ctx, { startSec: 3.6, endSec: 4.2, midi: 40 }),
    );
  });

  it("D58: beside a cover all goes on, and what reaches to its edge does", () => {
    const { ben } = lesson();
    const { ctx } = ben;
    const [before, , after] = readSong(ben.doc).changes.map(({ id }) => id);
    done(inkChanges(ctx, [before!, after!]));
    done(setChangeLabel(ctx, after!, "A:min"));
    done(moveChangeBoundary(ctx, null, after!, 4.5));
    done(writeChanges(ctx, [{ startSec: 4, endSec: 5, label: "E:min" }]));
    done(addBassNote(ctx, { startSec: 3.96, endSec: 5, midi: 40 }));
    done(addNote(ctx, { startSec: 4, endSec: 5, midi: 60, glides: [] }));
  });

  it("D58: events of the part, one or several, are not brought under it, nor those under it touched", () => {
    const { ben, first, kept, last } = lesson();
    const { ctx } = ben;
    const moved = { startSec: 3, endSec: 3.5 };
    allRefused(
      ben,
      () => addPartEvent(ctx, { ...PICK, strings: [8], startSec: 3, endSec: 3.5 }),
      () => addPartEvents(ctx, [{ ...PICK, startSec: 1.5, endSec: 2.5 }], "pencil"),
      () => editPartEvent(ctx, first, moved),
      () => editPartEvent(ctx, first, { endSec: 2.8 }),
      () => editPartEvent(ctx, first, { fret: 5 }, [kept]),
      () => editPartEvents(ctx, new Map([first, kept].map((id) => [id, { fret: 8 }]))),
      () =>
        editPartEvents(
          ctx,
          new Map<string, object>([
            [first, { fret: 5 }],
            [last, moved],
          ]),
        ),
      () => copyPartEvents(ctx, [{ event: { ...PICK, ...moved }, mark: "ink" }]),
      () => rubOutPartEvents(ctx, [first, kept]),
      () => rubOutPartEvent(ctx, kept),
      () => setPartCopedent(ctx, { from: { kind: "own", id: "lap", ownerId: "ben" }, chart: LAP }),
    );
    done(editPartEvents(ctx, new Map([[first, { fret: 5, endSec: 2 }]])));
    done(rubOutPartEvents(ctx, [first, last]));
    expect(readSong(ben.doc).part.map(({ id }) => id)).toEqual([kept]);
  });

  it("D58: to another part nothing goes unseen, neither from under a cover nor under one", () => {
    const { ann, ben, first, kept } = lesson();
    const from = { kind: "own", id: "lap", ownerId: "ann" } as const;
    const [part = ""] = done(addPart(ann.ctx, { name: "Lap", from, chart: LAP }));
    meet(ann, ben);
    const seen = { ...PICK, startSec: 0.5, endSec: 1 };
    const under = { ...PICK, startSec: 2.5, endSec: 3 };
    allRefused(
      ben,
      () => movePartEvents(ben.ctx, new Map([[kept, under]]), part),
      () => movePartEvents(ben.ctx, new Map([[first, under]]), part),
    );
    done(movePartEvents(ben.ctx, new Map([[first, seen]]), part));
  });

  it("D58: heard notes are not settled, moved, given away, written or heard anew there", () => {
    const { ann, ben, study } = lesson();
    const { ctx } = ben;
    const [note, other] = readSong(ben.doc).notes;
    // Both sound from 1 to 2 s, beside the cover: they are seen.
    done(inkNotes(ctx, [note!.id]));
    allRefused(
      ben,
      () => editNote(ctx, note!.id, { endSec: 2.5 }),
      () => addNote(ctx, { startSec: 3, endSec: 3.5, midi: 60, glides: [] }),
      () => writePassage(ctx, { startSec: 1, endSec: 3, version: "test 1", notes: [heardNote(1.5, 60)] }),
    );
    done(setCovers(ann.ctx, { target: study, lanes: ["heard"] }, "students", false));
    done(setCovers(ann.ctx, { target: "song", lanes: ["heard"] }, "students", true));
    send(ann, ben);
    allRefused(
      ben,
      () => inkNotes(ctx, [other!.id]),
      () => setNoteRole(ctx, [other!.id], "band"),
    );
  });

  it("D58: a home that holds somewhere under the cover is not touched, and none begins there", () => {
    const { ann, ben } = lesson();
    const { ctx } = ben;
    const [home] = readSong(ben.doc).homes;
    const key = { tonic: "A", mode: "major" as const };
    allRefused(
      ben,
      () => inkHome(ctx, home!.id),
      () => rubOutHome(ctx, home!.id),
      () => setHome(ctx, { startSec: 0, ...key }),
      () => setHome(ctx, { startSec: 3, ...key }),
      // It would hold on into the cover.
      () => setHome(ctx, { startSec: 1, ...key }),
    );
    const [later] = done(setHome(ctx, { startSec: 5, ...key }));
    allRefused(ben, () => setHome(ctx, { startSec: 3, ...key }, later));
    // What another settled there stays covered, what lies behind it is free.
    meet(ann, ben);
    done(rubOutHome(ctx, later!));
  });

  it("D58: what was rubbed out there stays so, while it cannot be seen", () => {
    const { ann, ben, kept } = lesson();
    done(rubOutPartEvent(ann.ctx, kept));
    send(ann, ben);
    allRefused(ben, () => restore(ben.ctx, "part", kept));
  });

  it("D58: what one settled oneself stays in hand, where it is", () => {
    const { ann, ben, study } = lesson();
    done(setCovers(ann.ctx, { target: study, lanes: ["places"] }, "students", false));
    send(ann, ben);
    const [own = ""] = done(addPartEvent(ben.ctx, { ...PICK, strings: [8], startSec: 3.2, endSec: 3.6 }));
    done(setCovers(ann.ctx, { target: study, lanes: ["places"] }, "students", true));
    meet(ann, ben);
    done(editPartEvent(ben.ctx, own, { fret: 8 }));
    done(editPartEvent(ben.ctx, own, { endSec: 3.5 }));
    allRefused(
      ben,
      () => editPartEvent(ben.ctx, own, { startSec: 2.4 }),
      // There the covered one rings, which would end.
      () => editPartEvent(ben.ctx, own, { strings: [5, 8] }),
    );
    done(rubOutPartEvent(ben.ctx, own));
  });

  it("D58: who looked may write there, and a teacher always", () => {
    const { ann, ben, study, kept } = lesson();
    done(look(ben.ctx, "places", [{ target: study, stretch: { startSec: 2, endSec: 3 } }]));
    done(editPartEvent(ben.ctx, kept, { fret: 8 }));
    allRefused(ben, () => editPartEvent(ben.ctx, kept, { endSec: 3.5 }));
    ann.ctx.watch = keepFromCovers(ann.doc, { id: "ann", isStudent: false });
    done(editPartEvent(ann.ctx, kept, { endSec: 3.5 }));
  });
});
