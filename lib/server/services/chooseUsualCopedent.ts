import type { UsualCopedent } from "@/lib/contracts/copedents";
import type { Actor } from "../auth/session";
import { requireOwnCopedent } from "./copedentOf";
import type { Db } from "./memberOf";

/**
 * Says on what guitar the person's new songs start; null takes that back.
 * @throws {AppError} not-found or not-yours where it is neither a preset nor the person's own
 */
export async function chooseUsualCopedent(
  db: Db,
  { userId }: Actor,
  usual: UsualCopedent,
): Promise<UsualCopedent> {
  if (usual === null) {
    await db.usualCopedent.deleteMany({ where: { userId } });
    return null;
  }
  if ("copedentId" in usual) await requireOwnCopedent(db, usual.copedentId, userId);
  const data =
    "presetId" in usual
      ? { presetId: usual.presetId, copedentId: null }
      : { presetId: null, copedentId: usual.copedentId };
  await db.usualCopedent.upsert({ where: { userId }, create: { userId, ...data }, update: data });
  return usual;
}
