import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inkChange, setChangeLabel } from "@/lib/document/commands/changes";
import { look, setCovers } from "@/lib/document/commands/covers";
import { addGuess, type GuessFields } from "@/lib/document/commands/guesses";
import { inkHome, setHome } from "@/lib/document/commands/homes";
import { addPartEvent } from "@/lib/document/commands/part";
import { restore } from "@/lib/document/commands/restore";
import { addStudies, rubOutStudy } from "@/lib/document/commands/studies";
import { coverSong } from "@/lib/document/read/coverSong";
import { readSong } from "@/lib/document/read/readSong";
import { WHOLE_SONG } from "@/lib/document/records/covers";
import { GUESS_LANES, type GuessLane } from "@/lib/lesson/GuessValue";
import { Dice, seeded } from "./dice";
import { done, hear, hearing, meet, type Replica, registers, replica, send } from "./replicas";

const EVENT = { strings: [5], fret: 3, changes: [], articulation: "pick" as const };

/** Ann teaches, ben learns; a song that was heard, with a study from 2 to 4 seconds. */
function lesson() {
  const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
  hear(ann);
  const [study] = done(addStudies(ann.ctx, [{ startSec: 2, endSec: 4, name: "Fill" }]));
  meet(ann, ben);
  return { ann, ben, study: study! };
}
/** What a student sees, or, with false, a teacher. */
function seenBy(on: Replica, isStudent = true) {
  return coverSong(readSong(on.doc), { id: on.by, isStudent });
}
function cover(on: Replica, target: string, ...lanes: GuessLane[]) {
  done(setCovers(on.ctx, { target, lanes }, "students", true));
}
function guess(fields: Partial<GuessFields> = {}): GuessFields {
  return {
    lane: "changes",
    value: { label: "D:7" },
    target: WHOLE_SONG,
    startSec: 2,
    endSec: 4,
    fit: 0.4,
    hintCount: 1,
    ...fields,
  } as GuessFields;
}
const labels = (on: Replica, isStudent = true) =>
  seenBy(on, isStudent).song.changes.map(({ label }) => label);

describe("covers", () => {
  it("D44: lie for students of the book, not for their teacher, lane by lane", () => {
    const { ann, ben, study } = lesson();
    cover(ann, study, "changes");
    send(ann, ben);
    expect(labels(ben)).toEqual(["G:maj", "D:7", "G:maj"]);
    expect(labels(ann, false)).toEqual(["G:maj", "C:maj", "D:7", "G:maj"]);
    expect(seenBy(ben).song.notes).toHaveLength(2);
    expect(readSong(ben.doc).covers).toMatchObject([
      { target: study, lane: "changes", coveredFor: "students", by: "ann" },
    ]);
  });

  it("D44: a learner alone covers from that learner alone", () => {
    const { ann, ben } = lesson();
    done(setCovers(ben.ctx, { target: WHOLE_SONG, lanes: ["home", "heard"] }, "self", true));
    meet(ann, ben);
    expect(seenBy(ben, false).song.homes).toEqual([]);
    expect(seenBy(ben, false).song.notes).toEqual([]);
    expect(seenBy(ann, true).song.homes).toHaveLength(1);
    done(setCovers(ben.ctx, { target: WHOLE_SONG, lanes: ["home", "heard"] }, "self", false));
    expect(readSong(ben.doc).covers).toEqual([]);
    expect(seenBy(ben, false).song).toEqual(readSong(ben.doc));
  });

  it("D45: home is kept back where it is covered, and wherever a home holds that is kept back", () => {
    const { ann, ben, study } = lesson();
    done(setHome(ann.ctx, { startSec: 5, tonic: "A", mode: "major" }));
    send(ann, ben);
    expect(seenBy(ben).song.unseenHome).toBeUndefined();
    cover(ann, study, "home");
    send(ann, ben);
    expect(seenBy(ben).song.homes.map(({ tonic }) => tonic)).toEqual(["A"]);
    expect(seenBy(ben).song.unseenHome).toEqual([{ startSec: 0, endSec: 5 }]);
    expect(seenBy(ann, false).song.unseenHome).toBeUndefined();
  });

  it("D44: two teachers who cover different lanes at once both stand", () => {
    const { ann, ben, study } = lesson();
    cover(ann, study, "home");
    cover(ben, study, "changes");
    meet(ann, ben);
    expect(readSong(ann.doc).covers.map(({ lane }) => lane)).toEqual(["changes", "home"]);
    expect(readSong(ann.doc)).toEqual(readSong(ben.doc));
  });

  it("D44: looking lifts them for who looks, where that person looks, until they are laid anew", () => {
    const { ann, ben, study } = lesson();
    const cy = replica("cy", 3);
    cover(ann, WHOLE_SONG, "changes");
    meet(ann, ben, cy);
    expect(labels(ben)).toEqual([]);
    done(look(ben.ctx, "changes", [{ target: WHOLE_SONG, stretch: { startSec: 2, endSec: 3 } }]));
    done(look(ben.ctx, "changes", [{ target: WHOLE_SONG, stretch: { startSec: 6, endSec: 8 } }]));
    meet(ann, ben, cy);
    expect(labels(ben)).toEqual(["C:maj", "G:maj"]);
    expect(labels(cy)).toEqual([]);
    expect(seenBy(ben).stretches.changes).toEqual([
      { startSec: 0, endSec: 2 },
      { startSec: 3, endSec: 6 },
      { startSec: 8, endSec: Number.POSITIVE_INFINITY },
    ]);
    cover(ann, WHOLE_SONG, "changes");
    send(ann, ben);
    expect(labels(ben)).toEqual([]);
    done(look(ben.ctx, "changes", [{ target: WHOLE_SONG, stretch: null }]));
    expect(labels(ben)).toHaveLength(4);
    // A look under one cover is none under another.
    cover(ann, study, "changes");
    send(ann, ben);
    expect(labels(ben)).toEqual(["G:maj", "D:7", "G:maj"]);
  });

  it("D44: where one of two covers is taken off, what was looked at stays lifted under the other", () => {
    const { ann, ben } = lesson();
    cover(ann, WHOLE_SONG, "changes");
    send(ann, ben);
    done(setCovers(ben.ctx, { target: WHOLE_SONG, lanes: ["changes"] }, "self", true));
    done(look(ben.ctx, "changes", [{ target: WHOLE_SONG, stretch: { startSec: 2, endSec: 3 } }]));
    done(setCovers(ann.ctx, { target: WHOLE_SONG, lanes: ["changes"] }, "students", false));
    send(ann, ben);
    expect(labels(ben)).toEqual(["C:maj"]);
    done(look(ben.ctx, "changes", [{ target: WHOLE_SONG, stretch: { startSec: 6, endSec: 8 } }]));
    expect(labels(ben)).toEqual(["C:maj", "G:maj"]);
  });

  it("D44: undo leaves them, and they go and come with their study", () => {
    const { ann, ben, study } = lesson();
    cover(ann, study, "changes");
    ann.undo.undo();
    expect(readSong(ann.doc).covers).toHaveLength(1);
    ann.undo.redo();
    done(rubOutStudy(ann.ctx, study));
    send(ann, ben);
    expect(labels(ben)).toHaveLength(4);
    done(restore(ann.ctx, "study", study));
    send(ann, ben);
    expect(labels(ben)).toHaveLength(3);
  });

  it("D17: what cannot be covered is refused with the reason, and nothing is written", () => {
    const { ann, study } = lesson();
    const before = registers(ann.doc);
    const refused = [
      setCovers(ann.ctx, { target: "nobody", lanes: ["home"] }, "students", true),
      setCovers(ann.ctx, { target: study, lanes: ["sections" as GuessLane] }, "students", true),
      setCovers(ann.ctx, { target: study, lanes: [] }, "self", true),
      look(ann.ctx, "changes", [{ target: study, stretch: { startSec: 2, endSec: 2 } }]),
      addGuess(ann.ctx, guess({ target: "nobody" })),
      addGuess(ann.ctx, guess({ endSec: 1 })),
      addGuess(ann.ctx, guess({ value: { label: "?" } })),
      addGuess(ann.ctx, guess({ lane: "heard", value: { midis: [] } })),
      addGuess(ann.ctx, guess({ fit: 2 })),
    ];
    expect(refused.map((each) => !each.ok && each.reason)).toEqual([
      "unknownRecord",
      "badLane",
      "badLane",
      "tooShort",
      "unknownRecord",
      "tooShort",
      "badGuess",
      "badGuess",
      "badGuess",
    ]);
    expect(registers(ann.doc)).toEqual(before);
  });
});

describe("what is covered", () => {
  it("D45: is taken out of all that is shown; the document keeps it", () => {
    const { ann, ben } = lesson();
    done(addPartEvent(ann.ctx, { ...EVENT, startSec: 2, endSec: 3 }));
    done(inkHome(ann.ctx, readSong(ann.doc).homes[0]!.id));
    for (const lane of GUESS_LANES) cover(ann, WHOLE_SONG, lane);
    send(ann, ben);
    const { song } = seenBy(ben);
    expect([song.homes, song.changes, song.bass, song.notes, song.bandNotes, song.part]).toEqual([
      [],
      [],
      [],
      [],
      [],
      [],
    ]);
    expect(song.sections).toHaveLength(2);
    // Neither a name of a chord or a key, nor a pitch, stands anywhere in what is shown.
    expect(JSON.stringify({ ...song, head: null })).not.toMatch(/[A-G]:maj|D:7|"tonic"|"midi"/);
    expect(readSong(ben.doc).changes).toHaveLength(4);
    expect(readSong(ben.doc).part).toHaveLength(1);
  });

  it("D45: a home that holds in the passage is covered wherever it begins", () => {
    const { ann, ben, study } = lesson();
    done(setHome(ann.ctx, { startSec: 4, tonic: "A", mode: "major" }));
    cover(ann, study, "home");
    send(ann, ben);
    expect(seenBy(ben).song.homes.map(({ tonic }) => tonic)).toEqual(["A"]);
  });

  it("D45: what the reader settled last stays, and what others make of it is covered again", () => {
    const { ann, ben } = lesson();
    const [, second] = readSong(ben.doc).changes;
    done(inkChange(ben.ctx, second!.id));
    cover(ann, WHOLE_SONG, "changes");
    meet(ann, ben);
    expect(labels(ben)).toEqual(["C:maj"]);
    done(setChangeLabel(ann.ctx, second!.id, "A:min"));
    send(ann, ben);
    expect(labels(ben)).toEqual([]);
  });

  it("D45: what only touches the edge of a cover is seen", () => {
    const { ann, ben } = lesson();
    hear(ann, hearing({ notes: [] }), "run 2");
    done(addPartEvent(ann.ctx, { ...EVENT, startSec: 1, endSec: 2.03 }));
    done(addPartEvent(ann.ctx, { ...EVENT, startSec: 3.97, endSec: 5 }));
    done(addPartEvent(ann.ctx, { ...EVENT, strings: [8], startSec: 3.9, endSec: 3.92 }));
    const { id } = readSong(ann.doc).studies[0]!;
    cover(ann, id, "places");
    send(ann, ben);
    expect(seenBy(ben).song.part.map(({ startSec }) => startSec)).toEqual([1, 3.97]);
    expect(seenBy(ben).hides("part", { ...readSong(ben.doc).part[0]!, startSec: 3, endSec: 3.2 })).toBe(true);
  });
});

describe("guesses", () => {
  it("D46: are kept with whose they are, and neither undo nor a later hearing loses them", () => {
    const { ann, ben, study } = lesson();
    const [id] = done(addGuess(ben.ctx, guess({ target: study })));
    ben.undo.undo();
    hear(ann, hearing(), "run 2");
    meet(ann, ben);
    expect(readSong(ann.doc).guesses).toMatchObject([
      { ...guess({ target: study }), id, by: "ben", outcome: null },
    ]);
    done(rubOutStudy(ann.ctx, study));
    expect(readSong(ann.doc).guesses).toHaveLength(1);
  });

  it("D46: each lane's own form comes back", () => {
    const { ben } = lesson();
    const all: GuessFields[] = [
      guess({ lane: "home", value: { tonic: "Eb", mode: "minor" } }),
      guess({ lane: "changes", value: { label: "A:min/b3" } }),
      guess({ lane: "heard", value: { midis: [64, 68] }, fit: null }),
      guess({ lane: "places", value: { strings: [5, 6], fret: 3, changes: ["A"] } }),
      guess({ lane: "places", value: { strings: [2], fret: 7, changes: [] }, part: "fiddle" }),
    ];
    for (const each of all) done(addGuess(ben.ctx, each));
    const { guesses } = readSong(ben.doc);
    expect(guesses).toMatchObject(all);
    expect(guesses.map(({ part }) => part)).toEqual([undefined, undefined, undefined, undefined, "fiddle"]);
    expect(addGuess(ben.ctx, guess({ part: "a.b" }))).toMatchObject({ ok: false, reason: "badGuess" });
  });

  it("D46: what others write on a guess counts for nothing, and what cannot be read is passed over", () => {
    const { ann, ben } = lesson();
    const [id] = done(addGuess(ben.ctx, guess()));
    const map = ben.doc.getMap("guess");
    map.set(`${id}.value`, { label: "G:maj" });
    map.set(`${id}.told.ann`, { comparison: "same", answer: null, atMs: 1 });
    map.set(`${id}.ink.ann`, { stamp: "s", atMs: 1 });
    map.set("x.made.ann", { ...guess(), atMs: 1, lane: "home" });
    map.set("y.made.ann", "guess");
    meet(ann, ben);
    expect(readSong(ann.doc).guesses).toMatchObject([
      { id, by: "ben", value: { label: "D:7" }, outcome: null },
    ]);
  });

  it("D47: uncovering keeps the answer and how it compared, once, for one's own guesses alone", () => {
    const { ann, ben } = lesson();
    cover(ann, WHOLE_SONG, "changes");
    send(ann, ben);
    const [id] = done(addGuess(ben.ctx, guess()));
    const where = [{ target: WHOLE_SONG, stretch: { startSec: 2, endSec: 4 } }];
    const told = { id: id!, comparison: "fifth" as const, answer: { label: "C:maj" } };
    done(look(ben.ctx, "changes", where, [told]));
    done(look(ben.ctx, "changes", where, [{ ...told, comparison: "same" }]));
    send(ben, ann);
    done(setChangeLabel(ann.ctx, readSong(ann.doc).changes[1]!.id, "A:min"));
    expect(readSong(ann.doc).guesses[0]!.outcome).toMatchObject({
      comparison: "fifth",
      answer: { label: "C:maj" },
    });
    const before = registers(ann.doc);
    expect(look(ann.ctx, "changes", where, [told])).toMatchObject({ reason: "othersGuess" });
    expect(look(ann.ctx, "changes", where, [{ ...told, id: "nobody" }])).toMatchObject({
      reason: "unknownRecord",
    });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D47: whatever reaches whom when, covers, looks and guesses agree everywhere, and no guess is lost", () => {
    fc.assert(
      fc.property(fc.integer(), fc.integer({ min: 5, max: 30 }), (seed, steps) => {
        const dice = new Dice(seeded(seed));
        const { ann, ben, study } = lesson();
        const made = new Set<string>();
        for (let step = 0; step < steps; step++) {
          const on = dice.of([ann, ben]);
          const target = dice.of([study, WHOLE_SONG]);
          const lane = dice.of(GUESS_LANES);
          const startSec = dice.below(8);
          const stretch = { startSec, endSec: startSec + 1 };
          switch (dice.below(4)) {
            case 0:
              setCovers(on.ctx, { target, lanes: [lane] }, dice.of(["students", "self"]), dice.next() < 0.7);
              break;
            case 1:
              look(on.ctx, lane, [{ target, stretch: dice.of([stretch, null]) }]);
              break;
            case 2: {
              // Undo may have taken back the study itself.
              const result = addGuess(on.ctx, guess({ target, ...stretch }));
              if (result.ok) for (const id of result.ids) made.add(id);
              break;
            }
            default:
              on.undo.undo();
              send(on, dice.of([ann, ben]));
          }
          for (const isStudent of [true, false]) {
            const { song, stretches } = seenBy(on, isStudent);
            // Nothing that another settled lies wholly under a cover.
            for (const change of song.changes) {
              const isUnder = stretches.changes.some(
                (each) => each.startSec <= change.startSec && change.endSec <= each.endSec,
              );
              expect(isUnder && change.editedBy !== on.by).toBe(false);
            }
          }
        }
        meet(ann, ben);
        expect(readSong(ann.doc)).toEqual(readSong(ben.doc));
        expect(new Set(readSong(ann.doc).guesses.map(({ id }) => id))).toEqual(made);
      }),
      { numRuns: 25 },
    );
  });
});
