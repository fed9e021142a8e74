import { route } from "@/lib/server/http/route";
import { listTakes } from "@/lib/server/services/takes/listTakes";

export const GET = route(({ house, actor, params }) => listTakes(house.db, actor, params.songId!));
