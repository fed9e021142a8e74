import { type HearingStatus, hearingStateSchema } from "@/lib/contracts/books";
import { ERRORS, errorMessage } from "@/lib/contracts/errors";
import type { HearingRun, PrismaClient } from "../db/generated/client";

type RunRow = Pick<HearingRun, "id" | "state" | "step" | "fraction" | "errorCode">;

function wordsOf(errorCode: string | null): string | null {
  if (errorCode === null) return null;
  const known = (Object.keys(ERRORS) as (keyof typeof ERRORS)[]).find((code) => code === errorCode);
  return errorMessage(known ?? "hearing-failed");
}

/** A run's row as pages see it. */
export function runStatus(run: RunRow): HearingStatus {
  return {
    runId: run.id,
    state: hearingStateSchema.parse(run.state),
    step: run.step,
    fraction: run.fraction,
    message: wordsOf(run.errorCode),
  };
}

/** Columns that {@link runStatus} reads: never the result, which is large. */
export const RUN_COLUMNS = { id: true, state: true, step: true, fraction: true, errorCode: true } as const;

/** How far the machine is with a song; null where it never began. */
export async function latestHearing(
  db: Pick<PrismaClient, "hearingRun">,
  songId: string,
): Promise<HearingStatus | null> {
  const run = await db.hearingRun.findFirst({
    where: { songId },
    orderBy: { createdAt: "desc" },
    select: RUN_COLUMNS,
  });
  return run ? runStatus(run) : null;
}
