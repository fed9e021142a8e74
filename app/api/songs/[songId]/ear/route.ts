import { route } from "@/lib/server/http/route";
import { openEarCopy } from "@/lib/server/services/openEarCopy";
import { wantEarCopy } from "@/lib/server/services/wantEarCopy";
import { rangedResponse } from "@/lib/server/storage/rangedResponse";

const answer = route(async ({ house, actor, request, params }) =>
  rangedResponse(request, await openEarCopy(house, actor, params.songId!)),
);

export { answer as GET, answer as HEAD };

export const POST = route(({ house, actor, params }) => wantEarCopy(house, actor, params.songId!));
