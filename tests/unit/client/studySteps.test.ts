import { describe, expect, it } from "vitest";
import { BY_HEART_FROM, LISTENED_FROM, studySteps } from "@/lib/client/song/studySteps";
import { addChange, inkChange } from "@/lib/document/commands/changes";
import { inkHome } from "@/lib/document/commands/homes";
import { inkNotes } from "@/lib/document/commands/notes";
import { addPartEvent } from "@/lib/document/commands/part";
import { countClean, countThrough, keepCheck } from "@/lib/document/commands/practice";
import { addStudies } from "@/lib/document/commands/studies";
import { readSong } from "@/lib/document/read/readSong";
import type { ShownStudy } from "@/lib/document/read/SongSnapshot";
import { done, hear, heardNote, hearing, meet, type Replica, replica } from "../../document/replicas";

/** Four bars of G, C, D7, G with two notes of the steel at 1 s, and a passage over the first two. */
function song() {
  const ann = replica("ann", 1);
  hear(ann, hearing({ notes: [heardNote(1, 59), heardNote(1, 64), heardNote(3, 62), heardNote(5, 60)] }));
  const [id] = done(addStudies(ann.ctx, [{ startSec: 0, endSec: 4, name: "" }]));
  return { ann, id: id! };
}
function stepsOf(on: Replica, strokes: { eventId: string; sign: string }[] = [], readerId = on.by) {
  const shown = readSong(on.doc);
  return studySteps(shown, shown.studies[0] as ShownStudy, readerId, strokes);
}
const event = { endSec: 2, strings: [5], fret: 3, changes: [], articulation: "pick" } as const;

describe("the steps of a passage", () => {
  it("are all open or in pencil where nothing was done", () => {
    const { ann } = song();
    const steps = stepsOf(ann);
    expect(steps.listen).toEqual({ state: "open", ownTimes: 0, othersTimes: 0, fullSpeedTimes: 0 });
    expect(steps.home).toMatchObject({ state: "begun", homes: [{ tonic: "G", mark: "pencil" }] });
    expect(steps.changes).toMatchObject({ state: "open", count: 2, inked: 0 });
    expect(steps.changes.pencilledIds).toHaveLength(2);
    expect(steps.notes).toMatchObject({ state: "open", heard: 3, inked: 0, placed: 0, events: 0 });
    expect(steps.check).toEqual({ state: "open", strokes: 0, fitting: 0, isChecked: false });
  });

  it("count times through by person, and take some listening to be done", () => {
    const { ann, id } = song();
    const ben = replica("ben", 2);
    meet(ann, ben);
    done(countThrough(ann.ctx, id, "d", { times: LISTENED_FROM - 1, fullSpeedTimes: 2 }));
    done(countThrough(ben.ctx, id, "d", { times: 7, fullSpeedTimes: 0 }));
    meet(ann, ben);
    expect(stepsOf(ann).listen).toEqual({
      state: "begun",
      ownTimes: LISTENED_FROM - 1,
      othersTimes: 7,
      fullSpeedTimes: 2,
    });
    // What is counted and not written yet is the reader's too: a listener's never is.
    const shown = readSong(ann.doc);
    const counted = { times: 1, fullSpeedTimes: 1 };
    expect(studySteps(shown, shown.studies[0] as ShownStudy, "ann", [], counted).listen).toEqual({
      state: "done",
      ownTimes: LISTENED_FROM,
      othersTimes: 7,
      fullSpeedTimes: 3,
    });
    expect(stepsOf(ben).listen).toMatchObject({ state: "done", ownTimes: 7, othersTimes: 4 });
    expect(stepsOf(ann, [], "cy").listen).toMatchObject({ state: "open", ownTimes: 0, othersTimes: 11 });
  });

  it("count clean takes, own and others' apart: begun with the first, done with so many at full speed", () => {
    const { ann, id } = song();
    const ben = replica("ben", 2);
    meet(ann, ben);
    expect(stepsOf(ann).byHeart).toEqual({ state: "open", ownTimes: 0, fullSpeedTimes: 0, othersTimes: 0 });
    done(countClean(ann.ctx, id, "d", { times: 4, fullSpeedTimes: 0 }));
    done(countClean(ann.ctx, id, "phone", { times: 1, fullSpeedTimes: BY_HEART_FROM - 2 }));
    done(countClean(ben.ctx, id, "d", { times: 9, fullSpeedTimes: 9 }));
    meet(ann, ben);
    expect(stepsOf(ann).byHeart).toEqual({ state: "begun", ownTimes: 5, fullSpeedTimes: 1, othersTimes: 9 });
    done(countClean(ann.ctx, id, "d", { times: 2, fullSpeedTimes: 2 }));
    expect(stepsOf(ann).byHeart).toMatchObject({ state: "done", fullSpeedTimes: BY_HEART_FROM });
    expect(stepsOf(ben).byHeart).toMatchObject({ state: "done", othersTimes: 5 });
  });

  it("count what is inked within it, and nothing outside", () => {
    const { ann } = song();
    const { homes, changes, notes } = readSong(ann.doc);
    done(inkHome(ann.ctx, homes[0]!.id));
    done(inkChange(ann.ctx, changes[0]!.id));
    done(inkChange(ann.ctx, changes[3]!.id));
    expect(stepsOf(ann).home.state).toBe("done");
    expect(stepsOf(ann).changes).toMatchObject({ state: "begun", count: 2, inked: 1 });
    done(inkChange(ann.ctx, changes[1]!.id));
    expect(stepsOf(ann).changes).toMatchObject({ state: "done", inked: 2, pencilledIds: [] });
    done(addChange(ann.ctx, { startSec: 2, endSec: 3, label: "A:min" }));
    expect(stepsOf(ann).changes).toMatchObject({ state: "done", count: 3 });
    done(inkNotes(ann.ctx, [notes[3]!.id]));
    expect(stepsOf(ann).notes).toMatchObject({ state: "open", inked: 0 });
  });

  it("count heard notes as placed where an event of the part begins with them", () => {
    const { ann } = song();
    const ids = readSong(ann.doc).notes.map(({ id }) => id);
    done(addPartEvent(ann.ctx, { ...event, startSec: 1.04, strings: [...event.strings], changes: [] }));
    expect(stepsOf(ann).notes).toMatchObject({ state: "begun", heard: 3, placed: 2, events: 1 });
    done(inkNotes(ann.ctx, ids));
    expect(stepsOf(ann).notes).toMatchObject({ state: "begun", inked: 3, placed: 2 });
    done(addPartEvent(ann.ctx, { ...event, startSec: 3, endSec: 4, strings: [4], changes: [] }));
    expect(stepsOf(ann).notes).toMatchObject({ state: "done", placed: 3, events: 2 });
  });

  it("count an event as fitting for as long as it says what it said", () => {
    const { ann, id } = song();
    const strokes = [
      { eventId: "e1", sign: "a" },
      { eventId: "e2", sign: "b" },
    ];
    done(keepCheck(ann.ctx, id, { e1: "a", e2: "b", gone: "c" }));
    expect(stepsOf(ann, strokes).check).toEqual({ state: "done", strokes: 2, fitting: 2, isChecked: true });
    const changed = [strokes[0]!, { eventId: "e2", sign: "changed" }];
    expect(stepsOf(ann, changed).check).toMatchObject({ state: "begun", fitting: 1 });
    expect(stepsOf(ann, []).check).toMatchObject({ state: "open", strokes: 0, fitting: 0 });
  });
});
