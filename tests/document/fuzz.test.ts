import { describe, expect, it } from "vitest";
import { coverSong } from "@/lib/document/read/coverSong";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import type { RecordBase } from "@/lib/document/records/records";
import { RECORD_KINDS } from "@/lib/document/records/storage";
import { ACTS } from "./acts";
import { Dice, seeded } from "./dice";
import {
  bassLine,
  chords,
  hear,
  heardNote,
  hearing,
  meet,
  type Replica,
  registers,
  replica,
  send,
} from "./replicas";
import { expectValid } from "./validSong";

const NAMES = Object.keys(ACTS);
const PEOPLE = ["ann", "ben", "cy", "dee"];
/** Seeds of every run; a further one can be given to look at a failure again, or for a long search. */
const SEEDS = process.env.DOCUMENT_FUZZ_SEED ? [Number(process.env.DOCUMENT_FUZZ_SEED)] : [1, 2, 3, 4, 5];
const STEPS = Number(process.env.DOCUMENT_FUZZ_STEPS ?? 150);

/** Every record that readers are told of, shown or covered. */
function told(on: Replica): Map<string, RecordBase> {
  const { tuning, grid, homes, changes, bass, sections, notes, bandNotes, parts, studies, covered } =
    readSong(on.doc);
  const all = [
    tuning,
    grid,
    ...homes,
    ...changes,
    ...bass,
    ...sections,
    ...notes,
    ...bandNotes,
    ...parts.flatMap(({ events }) => events),
    ...studies,
    ...Object.values(covered).flat(),
  ];
  return new Map(all.flatMap((each) => (each === null ? [] : [[each.id, each] as const])));
}

/** Registers whose key matches, of all records. */
function matching(on: Replica, pattern: RegExp): Record<string, unknown> {
  return Object.fromEntries(Object.entries(registers(on.doc)).filter(([key]) => pattern.test(key)));
}

/** Registers of the records that any person inked or rubbed out. */
function personal(on: Replica): Record<string, unknown> {
  const touched = new Set(Object.keys(matching(on, /\.(ink|rub)\./)).map((key) => key.split(".")[0]));
  return Object.fromEntries(
    Object.entries(registers(on.doc)).filter(([key]) => touched.has(key.split(".")[0])),
  );
}

/** What a copy says of how often each person played each study through, and made a clean take of it; those that are rubbed out too. */
function counts(on: Replica): Map<string, number> {
  const rubbedOut = readRubbedOut(on.doc, "study").map(({ record }) => record);
  return new Map(
    [...readSong(on.doc).studies, ...rubbedOut].flatMap(({ id, through, clean }) => [
      ...through.map(({ by, times }) => [`${id} ${by}`, times] as const),
      ...clean.map(({ by, times }) => [`${id} ${by} clean`, times] as const),
    ]),
  );
}

/** What a copy has of guesses, by id (rule D46). */
function guessed(on: Replica): string[] {
  return readSong(on.doc).guesses.map(({ id }) => id);
}

/** Every answer that a copy knows of, by id, and by whom: only who gave it takes it out of sight (rule D60). */
function answersOf(on: Replica): Map<string, string> {
  return new Map(
    readSong(on.doc).questions.flatMap(({ answers }) => answers.map(({ id, by }) => [id, by] as const)),
  );
}

/** An act of one person took nobody else's answer out of sight. */
function expectAnswersStand(before: ReadonlyMap<string, string>, on: Replica, where: string): void {
  const after = answersOf(on);
  for (const [id, by] of before) if (by !== on.by) expect(after.has(id), `${where}, ${id}`).toBe(true);
}

/** No count is lower than it was, as far as its study is still there (rules D41, D64). */
function expectNoneLowered(before: Map<string, number>, on: Replica, where: string): void {
  const after = counts(on);
  for (const [key, times] of before) {
    const now = after.get(key);
    if (now !== undefined) expect(now, `${where}, ${key}`).toBeGreaterThanOrEqual(times);
  }
}

function hearSomething(on: Replica, dice: Dice, run: number): void {
  const labels = Array.from({ length: 5 }, () => dice.of(["G:maj", "C:maj", "D:7"]));
  const before = {
    registers: personal(on),
    ink: [...told(on).values()].filter((each) => each.mark === "ink"),
  };
  const bass = bassLine(...labels.map(() => 36 + dice.below(4)));
  const again = { ...hearing().sections[1]!, transposedSemitones: dice.below(3) };
  const sections = [hearing().sections[0]!, again];
  const notes = labels.map((_, index) => heardNote(index + dice.below(3) / 50, 60 + dice.below(3) / 2));
  const changed = { chords: chords(...labels), bass, sections, notes, tuningCents: dice.below(3) };
  hear(on, hearing(changed), `run ${run}`);
  expect(personal(on)).toEqual(before.registers);
  expect(
    [...told(on).values()]
      .filter((each) => each.mark === "ink")
      .map((each) => each.id)
      .sort(),
  ).toEqual(before.ink.map((each) => each.id).sort());
}

/**
 * What the spec page says of ink, kept apart from the document: every act gets a number, every copy knows the
 * numbers that reached it, and a rubbing-out takes the ink whose numbers it knew.
 */
class InkLedger {
  private readonly acts: { id: string; by: string; is: "ink" | "rub" | "restore"; knew: Set<number> }[] = [];
  private readonly known: Set<number>[] = PEOPLE.map(() => new Set());

  write(who: number, id: string, is: "ink" | "rub" | "restore"): void {
    this.acts.push({ id, by: PEOPLE[who]!, is, knew: new Set(this.known[who]) });
    this.known[who]!.add(this.acts.length - 1);
  }

  send(from: number, to: number): void {
    for (const number of this.known[from]!) this.known[to]!.add(number);
  }

  /** Ids of records that must be ink and told of on this copy. */
  mustBeInk(who: number): string[] {
    const here = [...this.known[who]!]
      .sort((a, b) => a - b)
      .map((number) => ({ number, ...this.acts[number]! }));
    const latest = new Map<string, (typeof here)[number]>();
    for (const each of here) if (each.is === "ink") latest.set(`${each.id} ${each.by}`, each);
    const rubs = here.filter((each) => each.is === "rub");
    const unseen = [...latest.values()].filter((ink) => {
      return !rubs.some((rub) => rub.id === ink.id && rub.knew.has(ink.number));
    });
    return [...new Set(unseen.map((each) => each.id))];
  }
}

function people(): Replica[] {
  const all = PEOPLE.map((name, index) => replica(name, index + 1));
  hear(all[0]!);
  meet(...all);
  return all;
}

/** Which registers an act wrote on a person's own behalf, told from the document. */
function written(
  before: Record<string, unknown>,
  on: Replica,
): { id: string; is: "ink" | "rub" | "restore" }[] {
  return Object.entries(registers(on.doc)).flatMap(([key, value]) => {
    const parts = key.match(/^\w+\/([^.]+)\.(ink|rub|restore)\./);
    if (parts === null || before[key] === value) return [];
    return [{ id: parts[1]!, is: parts[2] as "ink" | "rub" | "restore" }];
  });
}

describe("long random sessions of four people", () => {
  it.each(SEEDS)(
    "D20: without undo no ink is lost that no rubber saw (seed %d)",
    (seed) => {
      const dice = new Dice(seeded(seed));
      const all = people();
      const ledger = new InkLedger();
      let agreed = 0;
      for (let step = 0; step < STEPS; step++) {
        const who = dice.below(PEOPLE.length);
        const on = all[who]!;
        const where = `seed ${seed}, step ${step}`;
        if (dice.next() < 0.03) hearSomething(on, dice, step);
        else {
          const before = registers(on.doc);
          const answers = answersOf(on);
          const result = ACTS[dice.of(NAMES)]!(on, dice);
          if (result?.ok) agreed++;
          else expect(registers(on.doc), where).toEqual(before);
          expectAnswersStand(answers, on, where);
          for (const { id, is } of written(before, on)) ledger.write(who, id, is);
        }
        if (dice.next() < 0.4) {
          const to = dice.below(PEOPLE.length);
          const before = counts(all[to]!);
          send(on, all[to]!);
          expectNoneLowered(before, all[to]!, where);
          for (const id of guessed(on)) expect(guessed(all[to]!), where).toContain(id);
          ledger.send(who, to);
        }
        expectValid(readSong(on.doc));
        expectValid(coverSong(readSong(on.doc), { id: on.by, isStudent: true }).song);
        const toldOf = told(on);
        for (const id of ledger.mustBeInk(who)) expect(toldOf.get(id)?.mark, `${where}, ${id}`).toBe("ink");
      }
      meet(...all);
      const song = readSong(all[0]!.doc);
      for (const each of all) expect(readSong(each.doc), `seed ${seed}`).toEqual(song);
      expectValid(song);
      expect(agreed).toBeGreaterThan(STEPS / 3);
    },
    60_000,
  );

  it.each(SEEDS)(
    "D15: undo and redo touch no one else's ink, and all copies agree (seed %d)",
    (seed) => {
      const dice = new Dice(seeded(seed + 1000));
      const all = people();
      let undone = 0;
      for (let step = 0; step < STEPS; step++) {
        const on = all[dice.below(PEOPLE.length)]!;
        const where = `seed ${seed}, step ${step}`;
        const draw = dice.next();
        if (draw < 0.03) hearSomething(on, dice, step);
        else if (draw < 0.3) {
          const others = new RegExp(
            `\\.(ink|rub|restore|there|words)\\.(?!${on.by}$)|\\.pencil$|^song/|^said/`,
          );
          const answers = answersOf(on);
          const before = { registers: matching(on, others), told: told(on) };
          const practised = /\.(through|clean|listen|check)\.|^(cover|guess)\//;
          const done = matching(on, practised);
          if (draw < 0.22 ? on.undo.undo() : on.undo.redo()) undone++;
          expect(matching(on, practised), where).toEqual(done);
          expectAnswersStand(answers, on, where);
          const after = matching(on, others);
          for (const [key, value] of Object.entries(before.registers)) {
            const isOwnGuess = key.endsWith(".pencil") && (value as { by: string }).by === on.by;
            if (!isOwnGuess) expect(after[key], `${where}, ${key}`).toEqual(value);
          }
          const rubbedOut = RECORD_KINDS.flatMap((kind) =>
            readRubbedOut(on.doc, kind).map((each) => each.record),
          );
          const still = new Map([...rubbedOut.map((each) => [each.id, each] as const), ...told(on)]);
          for (const key of Object.keys(before.registers).filter((each) => each.includes(".ink."))) {
            const id = key.split(/[/.]/)[1]!;
            if (before.told.has(id)) expect(still.get(id)?.mark, `${where}, ${key}`).toBe("ink");
          }
        } else ACTS[dice.of(NAMES)]!(on, dice);
        if (dice.next() < 0.4) send(on, dice.of(all));
        expectValid(readSong(on.doc));
      }
      meet(...all);
      const song = readSong(all[0]!.doc);
      for (const each of all) expect(readSong(each.doc), `seed ${seed}`).toEqual(song);
      expectValid(song);
      expect(undone).toBeGreaterThan(STEPS / 20);
    },
    60_000,
  );
});
