import * as Y from "yjs";
import type { CommandContext, CommandResult } from "@/lib/document/commands/act";
import { writeHearing } from "@/lib/document/commands/writeHearing";
import { COVERS } from "@/lib/document/records/covers";
import { GUESSES } from "@/lib/document/records/guesses";
import { QUESTIONS, SAID } from "@/lib/document/records/questions";
import { BEGUN, HEADS, OTHER_EVENTS, PASSAGES, RECORD_KINDS } from "@/lib/document/records/storage";
import { createUndo, type SongUndo } from "@/lib/document/undo";
import type { HeardBassNote, HeardChord, HeardNote, Hearing } from "@/lib/hearing/Hearing";

/** One person's copy of the song, as their page holds it. */
export interface Replica {
  by: string;
  doc: Y.Doc;
  undo: SongUndo;
  /** Context of the next command; its clock goes on by a millisecond each time. */
  ctx: CommandContext;
}

/** @param device tells apart two copies of one person */
export function replica(by: string, clientId: number, device = ""): Replica {
  const doc = new Y.Doc();
  doc.clientID = clientId;
  const origin = { person: by };
  let nowMs = 1_700_000_000_000;
  let made = 0;
  const ctx: CommandContext = {
    doc,
    by,
    get nowMs() {
      return ++nowMs;
    },
    newId: () => `${by}${device}-${made++}`,
    origin,
  };
  return { by, doc, undo: createUndo(doc, origin), ctx };
}

/** Sends everything that `to` lacks. */
export function send(from: Replica, to: Replica): void {
  Y.applyUpdate(to.doc, Y.encodeStateAsUpdate(from.doc, Y.encodeStateVector(to.doc)), "network");
}

/** Brings all replicas to the same updates. */
export function meet(...replicas: Replica[]): void {
  for (const round of [replicas, replicas]) {
    for (const from of round) for (const to of round) if (from !== to) send(from, to);
  }
}

/**
 * A hearing made up for tests: 16 beats of half a second in four, G major, four chords of two seconds, a bass note
 * under each, four seconds that come again, and a pair of the steel of which the lower note is pulled up, over a note of
 * the band.
 */
export function hearing(changed: Partial<Hearing> = {}): Hearing {
  return {
    version: "test 1",
    durationSec: 8,
    tuningCents: -12.3,
    tuningConfidence: 0.9,
    grid: {
      beats: Array.from({ length: 16 }, (_, index) => ({ timeSec: index / 2, inBar: (index % 4) + 1 })),
      tempoBpm: 120,
      beatsPerBar: 4,
      division: 2,
      freeStretches: [],
      beatsConfidence: 0.9,
      barsConfidence: 0.8,
    },
    homes: [
      {
        startSec: 0,
        endSec: 8,
        tonic: "G",
        mode: "major",
        confidence: 0.7,
        nextBest: [
          { tonic: "E", mode: "minor", confidence: 0.2 },
          { tonic: "D", mode: "major", confidence: 0.05 },
        ],
      },
    ],
    chords: chords("G:maj", "C:maj", "D:7", "G:maj"),
    bass: bassLine(43, 36, 38, 43),
    sections: [
      { startSec: 0, endSec: 4, label: "A", transposedSemitones: 0, confidence: 0.9 },
      { startSec: 4, endSec: 8, label: "A", transposedSemitones: 2, confidence: 0.5 },
    ],
    notes: [
      heardNote(1, 59, { glides: [{ kind: "pedal", toMidi: 61, atSec: 1.5, durationSec: 0.1 }] }),
      heardNote(1, 64.1),
      heardNote(1, 43, { steel: 0.1 }),
    ],
    ...changed,
  };
}

/** Chords of two seconds each, from the start. */
export function chords(...labels: string[]): HeardChord[] {
  return labels.map((label, index) => ({
    startSec: index * 2,
    endSec: index * 2 + 2,
    label,
    confidence: 0.6,
    nextBest: [
      { label: "E:min", confidence: 0.3 },
      { label: "A:min7", confidence: 0.1 },
    ],
  }));
}

/** Bass notes of a second and a half each, two seconds apart, from the start. */
export function bassLine(...midis: number[]): HeardBassNote[] {
  return midis.map((midi, index) => ({
    startSec: index * 2,
    endSec: index * 2 + 1.5,
    midi,
    confidence: 0.5,
  }));
}

/** A note of the steel that sounds for a second. */
export function heardNote(startSec: number, midi: number, changed: Partial<HeardNote> = {}): HeardNote {
  return { startSec, endSec: startSec + 1, midi, confidence: 0.8, steel: 0.9, glides: [], ...changed };
}

/** Writes a hearing on a replica's copy. */
export function hear(on: Replica, what: Hearing = hearing(), runId = "run 1"): CommandResult {
  return writeHearing({ doc: on.doc, nowMs: 1_600_000_000_000, origin: "hearing" }, what, runId);
}

/** Every register of the document, by map and key. */
export function registers(doc: Y.Doc): Record<string, unknown> {
  const all: Record<string, unknown> = {};
  for (const name of [
    "song",
    PASSAGES,
    HEADS,
    BEGUN,
    OTHER_EVENTS,
    COVERS,
    GUESSES,
    QUESTIONS,
    SAID,
    ...RECORD_KINDS,
  ]) {
    doc.getMap(name).forEach((value, key) => {
      all[`${name}/${key}`] = value;
    });
  }
  return all;
}

/** The ids of a command that must have gone well. */
export function done(result: CommandResult): string[] {
  if (!result.ok) throw new Error(`refused: ${result.reason}`);
  return result.ids;
}
