import { SLOTS, type SlotCode } from "@/lib/instrument/chart/slotCode";
import type { ChartDraft, DraftChange, DraftCombination, DraftString } from "./ChartDraft";
import { gripsToText, textToGrips } from "./gripsText";

/** One edit of a chart; each leaves all else as it was typed. */
export type DraftEdit = (draft: ChartDraft) => ChartDraft;

export function setFields(
  fields: Partial<Pick<ChartDraft, "name" | "source" | "stoppedBy" | "frets" | "grips">>,
): DraftEdit {
  return (draft) => ({ ...draft, ...fields });
}

export function setString(key: string, fields: Partial<Omit<DraftString, "key">>): DraftEdit {
  return (draft) => ({
    ...draft,
    strings: draft.strings.map((string) => (string.key === key ? { ...string, ...fields } : string)),
  });
}

/** A new string, nearest to the player. */
export function addString(pitch: string): DraftEdit {
  return (draft) => {
    const key = freeKey("s", draft.strings);
    return { ...draft, strings: [...draft.strings, { key, pitch, beginsAtFret: "" }] };
  };
}

/** Takes a string away with all that was said of it. */
export function removeString(key: string): DraftEdit {
  return (draft) =>
    withGripsMoved(draft, {
      ...draft,
      strings: draft.strings.filter((string) => string.key !== key),
      changes: draft.changes.map((change) => ({
        ...change,
        stages: change.stages.map((moves) =>
          Object.fromEntries(Object.entries(moves).filter(([string]) => string !== key)),
        ),
      })),
      splits: draft.splits.filter((string) => string !== key),
      combinations: draft.combinations.filter(({ string }) => string !== key),
    });
}

/** Puts a string one place further away (-1) or nearer (1); its moves, splits and grips go along. */
export function moveString(key: string, by: -1 | 1): DraftEdit {
  return (draft) => withGripsMoved(draft, { ...draft, strings: swapped(draft.strings, key, by) });
}

export function toggleSplit(key: string): DraftEdit {
  return (draft) => ({ ...draft, splits: toggled(draft.splits, key) });
}

export function setChange(
  key: string,
  fields: Partial<Pick<DraftChange, "id" | "label" | "slot">>,
): DraftEdit {
  return (draft) => ({
    ...draft,
    changes: draft.changes.map((change) => (change.key === key ? { ...change, ...fields } : change)),
  });
}

/** What one stage of a change does to a string, as it was typed. */
export function setMove(key: string, stage: number, stringKey: string, text: string): DraftEdit {
  return (draft) => ({
    ...draft,
    changes: draft.changes.map((change) =>
      change.key === key
        ? {
            ...change,
            stages: change.stages.map((moves, at) =>
              at === stage ? { ...moves, [stringKey]: text } : moves,
            ),
          }
        : change,
    ),
  });
}

/** A new change that does nothing yet, under the first free letter and at the first free place. */
export function addChange(draft: ChartDraft): ChartDraft {
  const taken = draft.changes.map(({ slot }) => slot);
  const free = SLOT_ORDER.find((slot) => !taken.includes(slot)) ?? "HAND";
  const ids = draft.changes.map(({ id }) => id.toLowerCase());
  const id = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].find((letter) => !ids.includes(letter.toLowerCase())) ?? "";
  const key = freeKey("c", draft.changes);
  return { ...draft, changes: [...draft.changes, { key, id, label: "", slot: free, stages: [{}] }] };
}

const SLOT_ORDER: readonly SlotCode[] = [
  "P1",
  "P2",
  "P3",
  "LKL",
  "LKR",
  "RKL",
  "RKR",
  "LKV",
  "RKV",
  "P4",
  "P5",
  "P6",
  "P7",
  "P8",
  "P9",
  "P0",
];

export function removeChange(key: string): DraftEdit {
  return (draft) => ({
    ...draft,
    changes: draft.changes.filter((change) => change.key !== key),
    footRest: draft.footRest.filter((change) => change !== key),
    combinations: draft.combinations.filter(({ stages }) => stages.every(({ change }) => change !== key)),
  });
}

/** Puts a change one column to the left or the right; where it is worked stays. */
export function moveChange(key: string, by: -1 | 1): DraftEdit {
  return (draft) => ({ ...draft, changes: swapped(draft.changes, key, by) });
}

/** A further stage behind the last, which begins as that one does. */
export function addStage(key: string): DraftEdit {
  return (draft) => ({
    ...draft,
    changes: draft.changes.map((change) =>
      change.key === key ? { ...change, stages: [...change.stages, change.stages.at(-1) ?? {}] } : change,
    ),
  });
}

/** Takes the last stage away; the first stays. */
export function removeStage(key: string): DraftEdit {
  return (draft) => {
    const gone = draft.changes.find((change) => change.key === key)?.stages.length ?? 0;
    if (gone < 2) return draft;
    return {
      ...draft,
      changes: draft.changes.map((change) =>
        change.key === key ? { ...change, stages: change.stages.slice(0, -1) } : change,
      ),
      combinations: draft.combinations.filter(({ stages }) =>
        stages.every(({ change, depth }) => change !== key || depth < gone),
      ),
    };
  };
}

export function toggleFootRest(key: string): DraftEdit {
  return (draft) => ({ ...draft, footRest: toggled(draft.footRest, key) });
}

/** Says what a string gives under stages held together, where the guitar is tuned otherwise than the rules. */
export function addCombination(combination: DraftCombination): DraftEdit {
  return (draft) => ({
    ...draft,
    combinations: [
      ...draft.combinations.filter((other) => !isSameCombination(other, combination)),
      combination,
    ],
  });
}

export function removeCombination(index: number): DraftEdit {
  return (draft) => ({ ...draft, combinations: draft.combinations.filter((_, at) => at !== index) });
}

function isSameCombination(one: DraftCombination, other: DraftCombination): boolean {
  const textOf = ({ string, stages }: DraftCombination) =>
    [string, ...stages.map(({ change, depth }) => `${change} ${depth}`).sort()].join(" ");
  return textOf(one) === textOf(other);
}

/** Whether a change is a pedal of the floor. */
export function isPedal({ slot }: Pick<DraftChange, "slot">): boolean {
  return SLOTS[slot].kind === "pedal";
}

/** Grips name strings by number: they follow the strings, and lose those that are gone. Half-typed ones stay. */
function withGripsMoved(before: ChartDraft, after: ChartDraft): ChartDraft {
  let grips: number[][];
  try {
    grips = textToGrips(before.grips);
  } catch {
    return after;
  }
  const numberNow = (number: number) =>
    after.strings.findIndex(({ key }) => key === before.strings[number - 1]?.key) + 1;
  const moved = grips
    .map((grip) =>
      grip
        .map(numberNow)
        .filter((number) => number > 0)
        .sort((a, b) => a - b),
    )
    .filter((grip) => grip.length > 1);
  return { ...after, grips: gripsToText(moved) };
}

function swapped<T extends { key: string }>(list: readonly T[], key: string, by: -1 | 1): readonly T[] {
  const from = list.findIndex((each) => each.key === key);
  const to = from + by;
  if (from < 0 || to < 0 || to >= list.length) return list;
  const next = [...list];
  [next[from], next[to]] = [list[to]!, list[from]!];
  return next;
}

function toggled(list: readonly string[], key: string): string[] {
  return list.includes(key) ? list.filter((each) => each !== key) : [...list, key];
}

function freeKey(letter: string, list: readonly { key: string }[]): string {
  const numbers = list.map(({ key }) => Number(key.slice(1)));
  return `${letter}${Math.max(0, ...numbers) + 1}`;
}
