import { route } from "@/lib/server/http/route";
import { acceptInvite } from "@/lib/server/services/acceptInvite";
import { readInvite } from "@/lib/server/services/readInvite";

export const GET = route(({ house, actor, params }) => readInvite(house.db, actor, params.token!));

export const POST = route(({ house, actor, params }) => acceptInvite(house.db, actor, params.token!));
