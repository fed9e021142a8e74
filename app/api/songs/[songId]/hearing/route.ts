import { route } from "@/lib/server/http/route";
import { cancelHearing } from "@/lib/server/services/cancelHearing";
import { startHearing } from "@/lib/server/services/startHearing";

export const POST = route(({ house, actor, params }) => startHearing(house, actor, params.songId!));

export const DELETE = route(({ house, actor, params }) => cancelHearing(house, actor, params.songId!));
