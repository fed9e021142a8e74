import type { Copedent } from "@/lib/instrument/Copedent";
import type { Chart, ChartChange, ChartMoves } from "@/lib/instrument/chart/Chart";
import { ChartFault, type ChartPath } from "@/lib/instrument/chart/ChartFault";
import { readChart } from "@/lib/instrument/chart/readChart";
import { SLOTS } from "@/lib/instrument/chart/slotCode";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import type { ChartDraft, DraftChange } from "./ChartDraft";
import { type ChartField, fieldAt } from "./ChartField";
import { textToGrips } from "./gripsText";
import { textToMove } from "./moveText";
import { textToPitch } from "./pitchText";

/** What a draft amounts to: a copedent with its chart, or what is wrong, by the field where it is wrong. */
export type DraftReading =
  | { copedent: Copedent; chart: Chart; faults: ReadonlyMap<ChartField, string> }
  | { copedent: null; chart: null; faults: ReadonlyMap<ChartField, string> };

/**
 * Reads a draft. Faults in what was typed are all told; of those that show only in the chart as a whole (two pedals at
 * one place, say), the first.
 * @param id under which the copedent is read
 */
export function readDraft(draft: ChartDraft, id = "own"): DraftReading {
  const faults = new Map<ChartField, string>();
  const chart = toChart(draft, faults);
  if (faults.size === 0) {
    try {
      const copedent = readChart(chart, id);
      return { copedent, chart: writeChart(copedent), faults };
    } catch (fault) {
      if (!(fault instanceof ChartFault)) throw fault;
      faults.set(fieldOf(draft, fault.path), capital(fault.why));
    }
  }
  return { copedent: null, chart: null, faults };
}

function toChart(draft: ChartDraft, faults: Map<ChartField, string>): Chart {
  const attempt = <T>(field: ChartField, reading: () => T, otherwise: T): T => {
    try {
      return reading();
    } catch (fault) {
      faults.set(field, fault instanceof Error ? fault.message : String(fault));
      return otherwise;
    }
  };
  const numberOf = (key: string) => draft.strings.findIndex((string) => string.key === key) + 1;
  if (draft.name.trim() === "") faults.set("name", "Give it a name.");

  const moves = (change: DraftChange, stage: number): ChartMoves =>
    Object.fromEntries(
      Object.entries(change.stages[stage] ?? {}).flatMap(([key, text]) => {
        const semitones = attempt(fieldAt.move(change.key, stage, key), () => textToMove(text), 0);
        return semitones === 0 || numberOf(key) === 0 ? [] : [[String(numberOf(key)), semitones]];
      }),
    );
  const changes = draft.changes.map((change): ChartChange => {
    const { id, label, slot, stages } = change;
    const all = stages.map((_, stage) => moves(change, stage));
    const base = { id: id.trim(), label, slot };
    return all.length === 1 ? { ...base, moves: all[0] } : { ...base, stages: all };
  });
  const stageId = ({ change, depth }: { change: string; depth: number }) =>
    draft.changes
      .find(({ key }) => key === change)
      ?.id.trim()
      .repeat(depth) ?? "";
  return {
    name: draft.name,
    source: draft.source,
    stoppedBy: draft.stoppedBy,
    strings: draft.strings.map(({ key, pitch, beginsAtFret }) => {
      const midi = attempt(fieldAt.pitch(key), () => textToPitch(pitch), 0);
      const begins = attempt(fieldAt.begins(key), () => wholeNumber(beginsAtFret, 0), 0);
      return begins === 0 ? midi : { midi, beginsAtFret: begins };
    }),
    frets: attempt("frets", () => wholeNumber(draft.frets, null), 24),
    changes,
    split: draft.splits.map(numberOf).filter((number) => number > 0),
    combinations: draft.combinations.map(({ string, stages, semitones }) => ({
      string: numberOf(string),
      stages: stages.map(stageId),
      semitones,
    })),
    footRest: draft.changes.flatMap(({ key, slot }) => {
      const where = SLOTS[slot];
      return where.kind === "pedal" && draft.footRest.includes(key) ? [where.place] : [];
    }),
    grips: attempt("grips", () => textToGrips(draft.grips), []),
  };
}

/** @param otherwise what nothing stands for; null where something must be written */
function wholeNumber(text: string, otherwise: number | null): number {
  const typed = text.trim();
  if (typed === "" && otherwise !== null) return otherwise;
  if (!/^\d{1,2}$/.test(typed)) throw new Error("Write a whole number.");
  return Number(typed);
}

/** The field in which a fault of the chart is mended. */
function fieldOf(draft: ChartDraft, [first, at, what, ...rest]: ChartPath): ChartField {
  if (first === "name" || first === "frets" || first === "grips" || first === "source") return first;
  if (first === "strings" && typeof at === "number") {
    const key = draft.strings[at]?.key;
    if (key) return what === "beginsAtFret" ? fieldAt.begins(key) : fieldAt.pitch(key);
  }
  if (first === "changes" && typeof at === "number") {
    const change = draft.changes[at];
    if (change && (what === "moves" || what === "stages")) {
      const [stage, string] = what === "moves" ? [0, rest[0]] : [Number(rest[0] ?? 0), rest[1]];
      const key = draft.strings[Number(string) - 1]?.key;
      if (key) return fieldAt.move(change.key, stage, key);
    }
    if (change)
      return what === "slot" || what === "label" ? fieldAt[what](change.key) : fieldAt.id(change.key);
  }
  return "chart";
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
