import { expect } from "vitest";
import type { SongPart, SongSnapshot } from "@/lib/document/read/SongSnapshot";
import { TECHNIQUES } from "@/lib/notation/Technique";
import { parseHarte } from "@/lib/theory/harte";

const ROUNDING_SEC = 1e-9;
const SHORTEST_SEC = 0.02 - ROUNDING_SEC;

/** What must hold of every snapshot, whatever was done to the document (rule D4), said apart from the code. */
export function expectValid(song: SongSnapshot): void {
  for (const list of [
    song.homes,
    song.changes,
    song.bass,
    song.sections,
    song.notes,
    song.bandNotes,
    ...song.parts.map(({ events }) => events),
    song.studies,
  ]) {
    for (const [index, each] of list.entries()) {
      if (index > 0) expect(each.startSec).toBeGreaterThanOrEqual(list[index - 1]!.startSec);
      expect(each.startSec).toBeGreaterThanOrEqual(0);
      expect(["pencil", "ink"]).toContain(each.mark);
    }
  }
  for (const list of [song.changes, song.bass, song.sections]) {
    for (const [index, each] of list.entries()) {
      expect(each.endSec - each.startSec).toBeGreaterThanOrEqual(SHORTEST_SEC);
      const next = list[index + 1];
      if (next !== undefined) expect(each.endSec).toBeLessThanOrEqual(next.startSec);
    }
    expect(new Set(list.map(({ id, stretch }) => `${id} ${stretch}`)).size).toBe(list.length);
  }
  for (const { label, guesses } of song.changes) {
    for (const each of [label, ...guesses.map((guess) => guess.label)])
      expect(() => parseHarte(each)).not.toThrow();
  }
  for (const { midi } of song.bass) expect(Number.isInteger(midi)).toBe(true);
  for (const { label, transposedSemitones } of song.sections) {
    expect(label.trim()).not.toBe("");
    expect(Math.abs(transposedSemitones)).toBeLessThanOrEqual(6);
  }
  for (const note of song.bandNotes) expect(note.role?.whose).toBe("band");
  for (const note of song.notes) expect(note.role?.whose).not.toBe("band");
  for (const [index, note] of [...song.notes, ...song.bandNotes].entries()) {
    const before = index === song.notes.length ? undefined : [...song.notes, ...song.bandNotes][index - 1];
    if (before?.startSec === note.startSec) expect(note.midi).toBeGreaterThanOrEqual(before.midi);
    expect(note.endSec - note.startSec).toBeGreaterThanOrEqual(SHORTEST_SEC);
    for (const midi of [note.midi, ...note.glides.map(({ toMidi }) => toMidi)])
      expect(midi >= 0 && midi <= 127).toBe(true);
    const timesSec = note.glides.map(({ atSec }) => atSec);
    expect(timesSec).toEqual([...timesSec].sort((a, b) => a - b));
    for (const atSec of timesSec) expect(atSec >= note.startSec && atSec <= note.endSec).toBe(true);
  }
  const inkNotes = [...song.notes, ...song.bandNotes].filter(({ mark }) => mark === "ink");
  for (const { startSec, midi } of song.notes.filter(({ mark }) => mark === "pencil")) {
    const isTold = inkNotes.some(
      (ink) => Math.abs(ink.startSec - startSec) <= 0.05 && Math.abs(ink.midi - midi) <= 0.5,
    );
    expect(isTold).toBe(false);
  }
  expect(song.covered.note).toEqual([]);
  for (const [index, home] of song.homes.entries()) {
    if (index > 0)
      expect(home.startSec - song.homes[index - 1]!.startSec).toBeGreaterThanOrEqual(SHORTEST_SEC);
    expect(home.tonic).toMatch(/^[A-G][b#]?$/);
  }
  const [first, ...others] = song.parts;
  expect(first).toMatchObject({ id: "part", head: song.head, events: song.part });
  expect(new Set(song.parts.map(({ id }) => id)).size).toBe(song.parts.length);
  const madeMs = others.map(({ madeAtMs }) => madeAtMs ?? Number.POSITIVE_INFINITY);
  expect(madeMs).toEqual([...madeMs].sort((a, b) => a - b));
  for (const part of song.parts) expectValidPart(part);
  expect(song.covered.study).toEqual([]);
  for (const [index, study] of song.studies.entries()) {
    expect(study.number).toBe(index + 1);
    expect(study.endSec - study.startSec).toBeGreaterThanOrEqual(SHORTEST_SEC);
    expect(study.name).toBe(study.name.trim());
    expect(study.name.length).toBeLessThanOrEqual(40);
    const before = song.studies[index - 1];
    if (before?.startSec === study.startSec) expect(study.id > before.id).toBe(true);
    for (const counts of [study.through, study.clean])
      expect(new Set(counts.map(({ by }) => by)).size).toBe(counts.length);
    for (const { times, fullSpeedTimes } of [...study.through, ...study.clean]) {
      expect(Number.isInteger(times) && Number.isInteger(fullSpeedTimes)).toBe(true);
      expect(fullSpeedTimes >= 0 && fullSpeedTimes <= times).toBe(true);
    }
    for (const { settings } of study.listening)
      expect(settings.speed >= 0.2 && settings.speed <= 1.5).toBe(true);
    const keptAtMs = study.listening.map(({ atMs }) => atMs);
    expect(keptAtMs).toEqual([...keptAtMs].sort((a, b) => b - a));
  }
  const madeAtMs = song.guesses.map(({ atMs }) => atMs);
  expect(madeAtMs).toEqual([...madeAtMs].sort((a, b) => a - b));
  expect(new Set(song.guesses.map(({ id }) => id)).size).toBe(song.guesses.length);
  for (const { startSec, endSec, lane, fit } of song.guesses) {
    expect(endSec).toBeGreaterThan(startSec);
    expect(["home", "changes", "heard", "places"]).toContain(lane);
    if (fit !== null) expect(fit >= 0 && fit <= 1).toBe(true);
  }
  expect(new Set(song.questions.map(({ id }) => id)).size).toBe(song.questions.length);
  for (const [index, question] of song.questions.entries()) {
    const before = song.questions[index - 1];
    if (before) expect(question.startSec).toBeGreaterThanOrEqual(before.startSec);
    expect(question.words === "").toBe(question.isTakenBack);
    if (question.isTakenBack) expect(question.answers.some(({ by }) => by !== question.by)).toBe(true);
    const answeredAtMs = question.answers.map(({ atMs }) => atMs);
    expect(answeredAtMs).toEqual([...answeredAtMs].sort((a, b) => a - b));
    for (const { words, stretch, isSinceSettled } of question.answers) {
      expect(words.length >= 1 && words.length <= 2000).toBe(true);
      if (isSinceSettled) expect(question.settled).not.toBeNull();
      if (stretch) expect(stretch.endSec - stretch.startSec).toBeGreaterThanOrEqual(SHORTEST_SEC);
    }
    expect(question.endSec - question.startSec).toBeGreaterThanOrEqual(SHORTEST_SEC);
  }
  if (song.grid !== null) {
    const { beatsSec, inBar, beatsPerBar, division, freeStretches } = song.grid;
    expect([2, 3]).toContain(division);
    expect(Array.isArray(freeStretches)).toBe(true);
    expect(inBar).toHaveLength(beatsSec.length);
    expect(beatsSec).toEqual([...beatsSec].sort((a, b) => a - b));
    for (const place of inBar) expect(place >= 1 && place <= beatsPerBar).toBe(true);
  }
}

function expectValidPart({ id, name, head, events }: SongPart): void {
  expect(name).toBe(name.trim());
  expect(name.length).toBeLessThanOrEqual(40);
  expect(head.copedent.strings.length).toBeGreaterThan(0);
  expect(head.copedent.id).toBe(head.from.id);
  for (const event of events) {
    expect(event.part).toBe(id);
    expect(event.strings.length).toBeGreaterThan(0);
    if (event.frets) {
      expect(event.frets).toHaveLength(event.strings.length);
      expect(new Set(event.frets).size).toBeGreaterThan(1);
      expect(event.fret).toBe(Math.min(...event.frets.filter((fret) => fret !== 0)));
    }
    expect(event.endSec - event.startSec).toBeGreaterThanOrEqual(SHORTEST_SEC);
    expect(event.techniques).toEqual(TECHNIQUES.filter((each) => event.techniques?.includes(each)));
  }
  for (const string of new Set(events.flatMap((event) => event.strings))) {
    const onString = events.filter((event) => event.strings.includes(string));
    for (const [index, event] of onString.entries()) {
      if (index > 0) expect(onString[index - 1]!.endSec).toBeLessThanOrEqual(event.startSec);
    }
  }
}
