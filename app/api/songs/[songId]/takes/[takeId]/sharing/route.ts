import { route } from "@/lib/server/http/route";
import { shareTake } from "@/lib/server/services/takes/shareTake";

export const PUT = route(({ house, actor, params }) =>
  shareTake(house, actor, params.songId!, params.takeId!, true),
);

export const DELETE = route(({ house, actor, params }) =>
  shareTake(house, actor, params.songId!, params.takeId!, false),
);
