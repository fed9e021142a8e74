import { z } from "zod";
import {
  type StrokeVerdict,
  TAKE_JUDGED_VERSION,
  type TakeFlaw,
  type TakeJudged,
} from "@/lib/fit/takes/TakeJudged";

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

const VERDICTS: { [V in StrokeVerdict]: V } = { found: "found", other: "other", missed: "missed" };
const FLAWS: { [F in TakeFlaw]: F } = {
  ...{ noStrokes: "noStrokes", silent: "silent", missed: "missed", other: "other" },
  ...{ notArrived: "notArrived", besides: "besides", farOff: "farOff" },
  ...{ outOfTime: "outOfTime", scattered: "scattered" },
};
const eventId = z.string().max(64);
const midi = z.number().min(-128).max(255);
const seconds = z.number().min(-86_400).max(86_400);
const count = z.number().int().min(0);

/** What is kept of a take's judging; everyone whom the take is shared with draws it, so that it is held to its form. */
export const takeJudgedSchema = z.object({
  version: z.literal(TAKE_JUDGED_VERSION),
  ...{ startSec: seconds, endSec: seconds, speed: z.number().min(0.1).max(4) },
  ...{ strokeCount: count, foundCount: count, otherCount: count, missedCount: count },
  ...{ medianLateSec: seconds.nullable(), spreadSec: seconds.nullable() },
  isClean: z.boolean(),
  flaws: z.array(z.enum(FLAWS)),
  strokes: z.array(
    z.object({
      ...{ eventId, startSec: seconds, lateSec: seconds.nullable() },
      verdict: z.enum(VERDICTS),
      ...{ notesMidi: z.array(midi), heardMidi: z.array(midi).nullable() },
      fit: z.number().nullable(),
      glides: z.array(
        z.object({ eventId, toMidi: midi, hasArrived: z.boolean(), heardMidi: midi.nullable() }),
      ),
    }),
  ),
  besides: z.array(z.object({ atSec: seconds, heardMidi: z.array(midi) })),
}) satisfies z.ZodType<TakeJudged>;
export type KeptJudged = z.infer<typeof takeJudgedSchema>;

/** A judging of the longest take, with more strokes a second than anybody plays for ten minutes. */
export const MAX_JUDGED_BYTES = 2 * 1024 * 1024;
