import { route } from "@/lib/server/http/route";
import { openRecord } from "@/lib/server/services/openRecord";
import { rangedResponse } from "@/lib/server/storage/rangedResponse";

const answer = route(async ({ house, actor, request, params }) =>
  rangedResponse(request, await openRecord(house, actor, params.songId!)),
);

export { answer as GET, answer as HEAD };
