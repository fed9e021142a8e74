import type { UsualCopedent } from "@/lib/contracts/copedents";
import type { Db } from "./memberOf";

/** A player's usual guitar; null where none was said. */
export async function readUsualCopedent(db: Db, userId: string): Promise<UsualCopedent> {
  const usual = await db.usualCopedent.findUnique({ where: { userId } });
  if (usual?.copedentId) return { copedentId: usual.copedentId };
  return usual?.presetId ? { presetId: usual.presetId } : null;
}
