import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { setCovers } from "@/lib/document/commands/covers";
import { answer, ask, reword, setSettled, setThere } from "@/lib/document/commands/questions";
import { keepFromCovers } from "@/lib/document/commands/underCovers";
import { coverSong } from "@/lib/document/read/coverSong";
import { readSaid } from "@/lib/document/read/readQuestions";
import { readSong } from "@/lib/document/read/readSong";
import { watchSong } from "@/lib/document/read/watchSong";
import { WHOLE_SONG } from "@/lib/document/records/covers";
import { songMap } from "@/lib/document/records/storage";
import { GUESS_LANES } from "@/lib/lesson/GuessValue";
import { done, hear, meet, type Replica, registers, replica } from "./replicas";

const ASKED = { startSec: 2, endSec: 3.5, words: "pedals or slide?" };

/** Ann teaches, ben learns, and has asked something. */
function lesson() {
  const [ann, ben] = [replica("ann", 1), replica("ben", 2)];
  hear(ann);
  meet(ann, ben);
  const [id] = done(ask(ben.ctx, ASKED));
  meet(ann, ben);
  return { ann, ben, id: id! };
}
const questions = (on: Replica) => readSong(on.doc).questions;
const only = (on: Replica) => {
  expect(questions(on)).toHaveLength(1);
  return questions(on)[0]!;
};
const say = (words: string, stretch: { startSec: number; endSec: number } | null = null) => ({
  words,
  stretch,
});

describe("questions and answers", () => {
  it("D59: a question has a stretch, words and an author; answers stand in it by when they were given", () => {
    const { ann, ben, id } = lesson();
    done(answer(ann.ctx, id, say("Pedals. Watch string 5.", { startSec: 2.5, endSec: 2.5 })));
    meet(ann, ben);
    done(answer(ben.ctx, id, say("I hear it.\nThank you.")));
    meet(ann, ben);
    for (const on of [ann, ben]) {
      expect(only(on)).toMatchObject({ id, by: "ben", ...ASKED, rewordedAtMs: null, settled: null });
      expect(only(on).answers).toMatchObject([
        { by: "ann", words: "Pedals. Watch string 5.", stretch: { startSec: 2.5, endSec: 2.52 } },
        { by: "ben", words: "I hear it.\nThank you.", stretch: null },
      ]);
    }
  });

  it("D59: a moment is read 20 ms long, ends that are crossed turned round, words without spaces around them", () => {
    const ann = replica("ann", 1);
    done(ask(ann.ctx, { startSec: 4, endSec: 4, words: "  what is this?\n" }));
    done(ask(ann.ctx, { startSec: 9, endSec: 8, words: "and this?" }));
    expect(questions(ann)).toMatchObject([
      { startSec: 4, endSec: 4.02, words: "what is this?" },
      { startSec: 8, endSec: 9 },
    ]);
  });

  it("D59: questions are shown by where they lie, then by when they were asked", () => {
    const ann = replica("ann", 1);
    for (const [startSec, words] of [
      [5, "third"],
      [1, "first"],
      [1, "second"],
    ] as const)
      done(ask(ann.ctx, { startSec, endSec: startSec + 1, words }));
    expect(questions(ann).map(({ words }) => words)).toEqual(["first", "second", "third"]);
  });

  it.each([
    [{ words: "  " }, "noWords"],
    [{ words: "x".repeat(2001) }, "badWords"],
    [{ words: 7 as unknown as string }, "badWords"],
    [{ startSec: -1 }, "badTime"],
    [{ endSec: Number.NaN }, "badTime"],
  ])("D59, D17: %o is refused, and nothing is written", (changed, reason) => {
    const { ann, id } = lesson();
    const before = registers(ann.doc);
    const fields = { ...ASKED, ...changed };
    expect(ask(ann.ctx, fields)).toMatchObject({ ok: false, reason });
    const { words, ...stretch } = fields;
    expect(answer(ann.ctx, id, say(words, stretch))).toMatchObject({ ok: false, reason });
    expect(registers(ann.doc)).toEqual(before);
  });

  it("D59: 2,000 signs are taken", () => {
    const ann = replica("ann", 1);
    done(ask(ann.ctx, { ...ASKED, words: "x".repeat(2000) }));
    expect(only(ann).words).toHaveLength(2000);
  });

  it("D59: what was asked is no other's to write: of two who claim one id the lower person id holds", () => {
    const { ann, id } = lesson();
    const saying = { ...ASKED, question: null, stretch: { startSec: 0, endSec: 1 }, atMs: 1 };
    ann.doc.getMap("said").set(`${id}.by.cy`, { ...saying, words: "I asked this" });
    expect(only(ann)).toMatchObject({ by: "ben", words: ASKED.words });
    ann.doc.getMap("said").set(`${id}.by.`, saying);
    ann.doc.getMap("said").set("x.by.cy", { ...saying, stretch: null });
    ann.doc.getMap("said").set("y.by.cy", { ...saying, words: "" });
    expect(questions(ann)).toHaveLength(1);
  });

  it("D59: an answer to a question that is not known is kept, and refused where a person would write it", () => {
    const { ann } = lesson();
    expect(answer(ann.ctx, "nobody", say("no"))).toMatchObject({ ok: false, reason: "unknownQuestion" });
    ann.doc.getMap("said").set("a.by.cy", { words: "hm", question: "nobody", stretch: null, atMs: 1 });
    ann.doc.getMap("question").set("a.there.cy", { isThere: true, atMs: 1 });
    expect(only(ann).answers).toEqual([]);
    expect(readSaid(ann.doc).get("a")).toMatchObject({ by: "cy", words: "hm" });
  });

  it("D60: its author words it otherwise, again and again; nobody else does", () => {
    const { ann, ben, id } = lesson();
    done(reword(ben.ctx, id, "pedals or bar?"));
    expect(only(ben)).toMatchObject({ words: "pedals or bar?", startSec: 2 });
    expect(only(ben).rewordedAtMs).toBeGreaterThan(only(ben).atMs);
    expect(done(reword(ben.ctx, id, " pedals or bar? "))).toEqual([]);
    expect(reword(ann.ctx, id, "mine")).toMatchObject({ ok: false, reason: "othersWords" });
    expect(setThere(ann.ctx, id, false)).toMatchObject({ ok: false, reason: "othersWords" });
    ben.doc.getMap("question").set(`${id}.words.ann`, { words: "mine", atMs: 9e12 });
    ben.doc.getMap("question").set(`${id}.there.ann`, { isThere: false, atMs: 9e12 });
    expect(only(ben).words).toBe("pedals or bar?");
  });

  it("D60: a question of one's own goes and comes back, with one's own answers", () => {
    const { ben, id } = lesson();
    done(answer(ben.ctx, id, say("never mind")));
    done(setThere(ben.ctx, id, false));
    expect(questions(ben)).toEqual([]);
    expect(readSaid(ben.doc).get(id)?.takenBackAtMs).not.toBeNull();
    expect(reword(ben.ctx, id, "again")).toMatchObject({ ok: false, reason: "takenBack" });
    done(setThere(ben.ctx, id, true));
    expect(only(ben).answers).toMatchObject([{ words: "never mind" }]);
  });

  it("D60: nobody's answer goes with a question that its author takes back meanwhile, by undo neither", () => {
    for (const isUndone of [false, true]) {
      const { ann, ben, id } = lesson();
      done(answer(ann.ctx, id, say("Pedals.")));
      if (isUndone) expect(ben.undo.undo()).toBe(true);
      else done(setThere(ben.ctx, id, false));
      expect(questions(ben)).toEqual([]);
      meet(ann, ben);
      for (const on of [ann, ben]) {
        expect(only(on)).toMatchObject({ isTakenBack: true, words: "", by: "ben", startSec: 2 });
        expect(only(on).answers).toMatchObject([{ by: "ann", words: "Pedals." }]);
      }
      done(setThere(ben.ctx, id, true));
      expect(only(ben)).toMatchObject({ isTakenBack: false, words: ASKED.words });
    }
  });

  it("D60: an answer that was taken back is not shown, and can be put back where its question is shown", () => {
    const { ann, ben, id } = lesson();
    const [given] = done(answer(ann.ctx, id, say("Pedals.")));
    done(setThere(ann.ctx, given!, false));
    expect(only(ann).answers).toEqual([]);
    done(setThere(ben.ctx, id, false));
    meet(ann, ben);
    expect(questions(ann)).toEqual([]);
    expect(setThere(ann.ctx, given!, true)).toMatchObject({ ok: false, reason: "unknownQuestion" });
    done(setThere(ben.ctx, id, true));
    meet(ann, ben);
    done(setThere(ann.ctx, given!, true));
    expect(only(ann).answers).toHaveLength(1);
  });

  it("D61: anybody settles it and opens it again", () => {
    const { ann, ben, id } = lesson();
    done(setSettled(ann.ctx, id, true));
    expect(only(ann).settled).toMatchObject({ by: "ann" });
    expect(done(setSettled(ann.ctx, id, true))).toEqual([]);
    meet(ann, ben);
    done(setSettled(ben.ctx, id, false));
    meet(ann, ben);
    expect(only(ann).settled).toBeNull();
    expect(setSettled(ann.ctx, "nobody", true)).toMatchObject({ ok: false, reason: "unknownQuestion" });
  });

  it("D61: what was answered while another settled it stands, is told apart, and leaves it settled", () => {
    const { ann, ben, id } = lesson();
    done(answer(ann.ctx, id, say("Pedals.")));
    meet(ann, ben);
    done(setSettled(ben.ctx, id, true));
    done(answer(ann.ctx, id, say("Or listen to the top note.")));
    meet(ann, ben);
    for (const on of [ann, ben]) {
      expect(only(on).settled).toMatchObject({ by: "ben" });
      expect(only(on).answers.map(({ isSinceSettled }) => isSinceSettled)).toEqual([false, true]);
    }
    done(setSettled(ann.ctx, id, true));
    expect(only(ann).answers.map(({ isSinceSettled }) => isSinceSettled)).toEqual([false, false]);
  });

  it("D61, D3: of settling and opening at once one holds, the same everywhere", () => {
    const { ann, ben, id } = lesson();
    done(setSettled(ann.ctx, id, true));
    meet(ann, ben);
    done(setSettled(ann.ctx, id, false));
    done(setSettled(ben.ctx, id, false));
    done(setSettled(ben.ctx, id, true));
    meet(ann, ben);
    expect(only(ann)).toEqual(only(ben));
  });

  it("D15, D59: undo takes back what one said or settled, and does it again; another's act since stays", () => {
    const { ann, ben, id } = lesson();
    done(reword(ben.ctx, id, "bar?"));
    done(answer(ben.ctx, id, say("I mean bar 2")));
    done(setSettled(ben.ctx, id, true));
    const whole = only(ben);
    const said = registers(ben.doc);
    for (let step = 0; step < 4; step++) expect(ben.undo.undo()).toBe(true);
    expect(questions(ben)).toEqual([]);
    for (const [key, value] of Object.entries(said).filter(([each]) => each.startsWith("said/")))
      expect(registers(ben.doc)[key]).toEqual(value);
    for (let step = 0; step < 4; step++) expect(ben.undo.redo()).toBe(true);
    expect(only(ben)).toEqual(whole);
    meet(ann, ben);
    done(setSettled(ann.ctx, id, false));
    meet(ann, ben);
    // The settling is no longer there to take back, so that the act before it is.
    ben.undo.undo();
    expect(only(ben)).toMatchObject({ settled: null, answers: [], words: "bar?" });
  });

  it("D61: covers leave questions, and keep nobody from asking", () => {
    const { ann, ben, id } = lesson();
    done(setCovers(ann.ctx, { target: WHOLE_SONG, lanes: [...GUESS_LANES] }, "students", true));
    meet(ann, ben);
    const reader = { id: "ben", isStudent: true };
    const ctx = { ...ben.ctx, nowMs: 9e12, watch: keepFromCovers(ben.doc, reader) };
    done(ask(ctx, { ...ASKED, startSec: 3 }));
    done(answer(ctx, id, say("is it this?", { startSec: 2, endSec: 3 })));
    const { song } = coverSong(readSong(ben.doc), reader);
    expect(song.changes).toEqual([]);
    expect(song.questions).toEqual(questions(ben));
    expect(song.questions).toHaveLength(2);
  });

  it("D18: a song of a newer Liftbook is asked nothing", () => {
    const { ann, id } = lesson();
    songMap(ann.doc).set("schema", 99);
    for (const result of [ask(ann.ctx, ASKED), answer(ann.ctx, id, say("hm")), setSettled(ann.ctx, id, true)])
      expect(result).toMatchObject({ ok: false, reason: "newerVersion" });
    expect(ask({ ...ann.ctx, by: "machine" }, ASKED)).toMatchObject({ ok: false });
  });

  it("D19: watching tells of each act once, and hands on the questions that did not change", () => {
    const { ann, id } = lesson();
    done(ask(ann.ctx, { ...ASKED, startSec: 1 }));
    const seen: ReturnType<typeof questions>[] = [];
    watchSong(ann.doc, (song) => seen.push(song.questions));
    done(answer(ann.ctx, id, say("Pedals.")));
    expect(seen).toHaveLength(2);
    expect(seen[1]![0]).toBe(seen[0]![0]);
    expect(seen[1]![1]).not.toBe(seen[0]![1]);
  });

  it("D5: what has a time that no date can have is passed over, so that a page can always say when", () => {
    const { ann, id } = lesson();
    const saying = { words: "hm", question: null, stretch: { startSec: 0, endSec: 1 } };
    ann.doc.getMap("said").set("x.by.cy", { ...saying, atMs: 8.64e15 + 1 });
    ann.doc.getMap("question").set("x.there.cy", { isThere: true, atMs: 1 });
    ann.doc.getMap("question").set(`${id}.settled`, { isSettled: true, by: "cy", atMs: -9e15, seen: [] });
    expect(questions(ann).map((each) => [each.id, each.settled])).toEqual([[id, null]]);
    ann.doc.getMap("said").set("x.by.cy", { ...saying, atMs: 8.64e15 });
    expect(questions(ann).map((each) => new Date(each.atMs).toISOString())).toHaveLength(2);
  });

  it("D5: whatever lies in the maps, reading gives a valid list", () => {
    const junk = fc.oneof(fc.jsonValue(), fc.constant({ words: "hm", question: null, atMs: 1 }));
    const key = fc.constantFrom("x.by.cy", "x.there.cy", "x.words.cy", "x.settled", "y.by.cy", "by.", "z");
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom("said", "question"), key, junk), { maxLength: 12 }),
        (written) => {
          const { ann, id } = lesson();
          for (const [map, name, value] of written) ann.doc.getMap(map).set(name, value);
          expect(questions(ann).some((each) => each.id === id)).toBe(true);
          for (const { words, startSec, endSec } of questions(ann)) {
            expect(typeof words).toBe("string");
            expect(endSec).toBeGreaterThan(startSec);
          }
        },
      ),
      { numRuns: 100 },
    );
  });
});
