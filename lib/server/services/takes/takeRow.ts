import type { Take } from "@/lib/contracts/takes";
import { TAKE_JUDGED_VERSION, type TakeJudged } from "@/lib/fit/takes/TakeJudged";
import type { Prisma } from "../../db/generated/client";

/** What {@link toTake} reads. */
export const TAKE_COLUMNS = {
  id: true,
  songId: true,
  ownerId: true,
  owner: { select: { name: true } },
  partId: true,
  startSec: true,
  endSec: true,
  speed: true,
  shiftCents: true,
  leadSec: true,
  durationSec: true,
  delaySec: true,
  sampleRateHz: true,
  channelCount: true,
  madeAt: true,
  isShared: true,
  judged: true,
  sound: { select: { byteCount: true } },
} as const satisfies Prisma.TakeSelect;

type TakeColumns = Prisma.TakeGetPayload<{ select: typeof TAKE_COLUMNS }>;

/** A take as pages of that person know it. */
export function toTake(row: TakeColumns, userId: string): Take {
  const { owner, sound, madeAt, channelCount, judged, ...rest } = row;
  return {
    ...rest,
    ownerName: owner.name,
    isOwn: row.ownerId === userId,
    channelCount: channelCount === 2 ? 2 : 1,
    byteCount: Number(sound.byteCount),
    madeAtMs: madeAt.getTime(),
    judged: asJudged(judged),
  };
}

/** Held to lib/contracts/takeSchemas.ts when it came in; what another version kept is passed over. */
function asJudged(kept: TakeColumns["judged"]): TakeJudged | null {
  const judged = kept as TakeJudged | null;
  return judged?.version === TAKE_JUDGED_VERSION ? judged : null;
}
