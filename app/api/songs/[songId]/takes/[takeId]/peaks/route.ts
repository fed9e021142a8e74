import { route } from "@/lib/server/http/route";
import { openTakePeaks } from "@/lib/server/services/takes/openTake";
import { rangedResponse } from "@/lib/server/storage/rangedResponse";

const answer = route(async ({ house, actor, request, params }) =>
  rangedResponse(request, await openTakePeaks(house, actor, params.songId!, params.takeId!)),
);

export { answer as GET, answer as HEAD };
