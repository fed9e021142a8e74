import { songTitleSchema } from "@/lib/contracts/books";
import { route, routeWithBody } from "@/lib/server/http/route";
import { readSong } from "@/lib/server/services/readSong";
import { removeSong } from "@/lib/server/services/removeSong";
import { renameSong } from "@/lib/server/services/renameSong";

export const GET = route(({ house, actor, params }) => readSong(house.db, actor, params.songId!));

export const PATCH = routeWithBody(songTitleSchema, ({ house, actor, params, body }) =>
  renameSong(house.db, actor, params.songId!, body.title),
);

export const DELETE = route(({ house, actor, params }) => removeSong(house, actor, params.songId!));
