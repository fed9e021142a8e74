import type { Change, Copedent, Pulls } from "./Copedent";

/**
 * One stage of a change as it is named in tab and in part events: the change's id for the first stage, the id
 * written twice for the second (`D`, `DD`), and so on. A set of engaged changes is a list of such ids.
 */
export type StageId = string;

export const MOST_STAGE_ID_CHARACTERS = 16;

/** Whether a value can name a stage: a letter, then letters or digits, no more than so many in all. */
export function isStageId(value: unknown): value is StageId {
  return (
    typeof value === "string" &&
    value.length <= MOST_STAGE_ID_CHARACTERS &&
    /^[A-Za-z][A-Za-z0-9]*$/.test(value)
  );
}

/** A stage together with the change it belongs to. */
export interface Stage {
  id: StageId;
  change: Change;
  /** 1 for the first stage. */
  depth: number;
  pulls: Pulls;
}

/** A pedal or lever that the copedent does not have. */
export class UnknownChangeError extends Error {
  override readonly name = "UnknownChangeError";
  constructor(
    readonly id: string,
    copedent: Copedent,
  ) {
    const known = allStages(copedent).map((stage) => stage.id);
    super(`"${id}" is no pedal or lever of ${copedent.name}: it has ${known.join(", ")}.`);
  }
}

/** Every stage of every change, in the copedent's order. */
export function allStages(copedent: Pick<Copedent, "changes">): Stage[] {
  return copedent.changes.flatMap((change) =>
    change.stages.map((pulls, index) => ({
      id: change.id.repeat(index + 1),
      change,
      depth: index + 1,
      pulls,
    })),
  );
}

/**
 * The stages that a list of ids engages, in the copedent's order; of two stages of one change the deeper, since
 * the lever travels through the first. Throws {@link UnknownChangeError}.
 */
export function engagedStages(copedent: Copedent, ids: readonly StageId[]): Stage[] {
  const stages = allStages(copedent);
  for (const id of ids) {
    if (!stages.some((stage) => stage.id === id)) throw new UnknownChangeError(id, copedent);
  }
  const named = stages.filter((stage) => ids.includes(stage.id));
  return named.filter(
    (stage) => !named.some((other) => other.change === stage.change && other.depth > stage.depth),
  );
}

/**
 * The copedent with only those stages (and the earlier ones that a lever passes on its way to them), for a
 * player who lacks the rest. Throws {@link UnknownChangeError}.
 */
export function withStages(copedent: Copedent, ids: readonly StageId[]): Copedent {
  const kept = engagedStages(copedent, ids);
  const changes = copedent.changes.flatMap((change) => {
    const deepest = kept.find((stage) => stage.change === change);
    return deepest === undefined ? [] : [{ ...change, stages: change.stages.slice(0, deepest.depth) }];
  });
  return { ...copedent, changes };
}
