import { MAX_JUDGED_BYTES, takeJudgedSchema } from "@/lib/contracts/takeSchemas";
import { routeWithBody } from "@/lib/server/http/route";
import { keepJudged } from "@/lib/server/services/takes/keepJudged";

export const PUT = routeWithBody(
  takeJudgedSchema,
  ({ house, actor, params, body }) => keepJudged(house, actor, params.songId!, params.takeId!, body),
  MAX_JUDGED_BYTES,
);
