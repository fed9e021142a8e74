import { z } from "zod";

/** What whoever sends a take says of it; the server finds the rest. */
export const newTakeSchema = z
  .object({
    /** Whose it is: a page may stand open while somebody else signs in, and the take must not become theirs. */
    ownerId: z.string().min(1).max(64),
    partId: z.string().min(1).max(64).nullable(),
    startSec: z.number().min(0).max(86_400),
    endSec: z.number().min(0).max(86_400),
    speed: z.number().min(0.1).max(4),
    shiftCents: z.number().min(-4_800).max(4_800),
    leadSec: z.number().min(0).max(30),
    delaySec: z.number().min(-2).max(2),
    madeAtMs: z.number().int().min(0).max(8.64e15),
  })
  .refine(({ startSec, endSec }) => endSec > startSec, "a take ends after it begins");
export type NewTake = z.infer<typeof newTakeSchema>;

/** What is kept of a take's judging (lib/fit/takes/TakeJudged.ts): plain JSON, of which the server looks at no more than this. */
export const takeJudgedSchema = z.object({ isClean: z.boolean() }).catchall(z.json());
export type KeptJudged = z.infer<typeof takeJudgedSchema>;
