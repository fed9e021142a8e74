import { newTakeSchema } from "@/lib/contracts/takeSchemas";
import { TAKE_HEADER } from "@/lib/contracts/takes";
import { headerJson } from "@/lib/server/http/headerJson";
import { route } from "@/lib/server/http/route";
import { addTake } from "@/lib/server/services/takes/addTake";
import { removeTake } from "@/lib/server/services/takes/removeTake";

/** The body is the WAV as it is, taken in as it comes. */
export const PUT = route(({ house, actor, request, params }) => {
  const announced = request.headers.get("content-length");
  return addTake(house, actor, params.songId!, {
    id: params.takeId!,
    about: headerJson(request, TAKE_HEADER, newTakeSchema),
    body: request.body as AsyncIterable<Uint8Array> | null,
    byteCount: announced === null ? null : Number(announced),
    signal: request.signal,
  });
});

export const DELETE = route(({ house, actor, params }) =>
  removeTake(house, actor, params.songId!, params.takeId!),
);
