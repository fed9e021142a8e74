import type { Change, Pulls } from "../Copedent";
import { allStages, isStageId } from "../stages";
import { ChartFault, type ChartPath, show } from "./ChartFault";
import { CHART_LIMITS } from "./chartLimits";
import { readList, readObject, readText, readWhole } from "./readValues";
import { isSlotCode, SLOTS, slotToCode } from "./slotCode";

const FIELDS = ["id", "label", "slot", "moves", "stages"];

/** The pedals and levers of a chart, told apart by id and by place. Throws `ChartFault`. */
export function readChanges(value: unknown, stringCount: number): Change[] {
  const list = readList(value, ["changes"], CHART_LIMITS.changes, "pedals and levers");
  const changes = list.map((each, at) => readChange(each, ["changes", at], stringCount));
  checkSlots(changes);
  checkIds(changes);
  return changes;
}

function readChange(value: unknown, path: ChartPath, stringCount: number): Change {
  const fields = readObject(value, path, FIELDS);
  const { id, slot } = fields;
  if (!isStageId(id))
    throw new ChartFault(
      [...path, "id"],
      `${show(id)} is no id: write a letter, then letters or digits, ${CHART_LIMITS.idCharacters} characters at most.`,
    );
  if (!isSlotCode(slot))
    throw new ChartFault(
      [...path, "slot"],
      `${show(slot)} is no place for ${id}: write one of ${Object.keys(SLOTS).join(", ")}.`,
    );
  const label = readText(fields.label ?? id, [...path, "label"], CHART_LIMITS.labelCharacters);
  return { id, label: label || id, slot: SLOTS[slot], stages: readStages(fields, id, path, stringCount) };
}

function readStages(
  { moves, stages }: Readonly<Record<string, unknown>>,
  id: string,
  path: ChartPath,
  stringCount: number,
): Pulls[] {
  if (moves === undefined && stages === undefined)
    throw new ChartFault(
      path,
      `${id} does nothing yet: write moves, as in {"5": 2, "10": 2}, or {} for none.`,
    );
  const full = moves === undefined ? null : readMoves(moves, [...path, "moves"], stringCount);
  const at = [...path, "stages"];
  const list = stages === undefined ? [] : readList(stages, at, CHART_LIMITS.stages, "stages");
  if (full === null && list.length === 0) throw new ChartFault(at, `${id} needs at least one stage.`);
  const halfStops = list.map((each, index) => readMoves(each, [...at, index], stringCount));
  const last = halfStops.at(-1);
  if (full === null || (last !== undefined && samePulls(last, full))) return halfStops;
  if (list.length === CHART_LIMITS.stages)
    throw new ChartFault(
      at,
      `${id} has ${CHART_LIMITS.stages + 1} stages with its moves; ${CHART_LIMITS.stages} are the most.`,
    );
  return [...halfStops, full];
}

function samePulls(a: Pulls, b: Pulls): boolean {
  const strings = Object.keys(a);
  return (
    strings.length === Object.keys(b).length &&
    strings.every((string) => a[Number(string)] === b[Number(string)])
  );
}

function readMoves(value: unknown, path: ChartPath, stringCount: number): Pulls {
  if (typeof value !== "object" || value === null || Array.isArray(value))
    throw new ChartFault(path, `must give semitones by string, as in {"5": 2, "10": 2}, not ${show(value)}.`);
  const pulls: Record<number, number> = {};
  for (const [string, semitones] of Object.entries(value)) {
    if (!/^[1-9]\d?$/.test(string) || Number(string) > stringCount)
      throw new ChartFault(
        path,
        `there is no string ${show(string)}: the strings are 1 to ${stringCount}; leave it out or mend the number.`,
      );
    const most = CHART_LIMITS.semitones;
    const pull = readWhole(semitones, [...path, string], -most, most);
    if (pull !== 0) pulls[Number(string)] = pull;
  }
  return pulls;
}

/** Fingers can pull several strings, one at a time; of everything else one change fills the place. */
function checkSlots(changes: readonly Change[]): void {
  const taken = new Map<string, string>();
  for (const [at, { id, slot }] of changes.entries()) {
    const code = slotToCode(slot);
    const other = taken.get(code);
    if (other !== undefined && code !== "HAND")
      throw new ChartFault(
        ["changes", at, "slot"],
        `${id} stands at ${code}, where ${other} is already: give one of them another place.`,
      );
    taken.set(code, id);
  }
}

/** No two stages of the instrument may be written alike, not even in another case, since ids are typed as letters. */
function checkIds(changes: readonly Change[]): void {
  const taken = new Map<string, string>();
  for (const stage of allStages({ changes })) {
    const path = ["changes", changes.indexOf(stage.change), "id"];
    const written = stage.depth === 1 ? stage.id : `stage ${stage.depth} of ${stage.change.id}, ${stage.id},`;
    if (!isStageId(stage.id))
      throw new ChartFault(
        path,
        `${written} is longer than ${CHART_LIMITS.idCharacters} characters: shorten the id, which is written once a stage.`,
      );
    const other = taken.get(stage.id.toLowerCase());
    if (other !== undefined)
      throw new ChartFault(path, `${written} is written like ${other}: give one of the two another id.`);
    taken.set(
      stage.id.toLowerCase(),
      stage.depth === 1 ? `the change ${stage.id}` : written.replace(/,$/, ""),
    );
  }
}
