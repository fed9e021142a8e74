import { copedentEditSchema } from "@/lib/contracts/copedents";
import { route, routeWithBody } from "@/lib/server/http/route";
import { changeCopedent } from "@/lib/server/services/changeCopedent";
import { readCopedent } from "@/lib/server/services/readCopedent";
import { removeCopedent } from "@/lib/server/services/removeCopedent";

export const GET = route(({ house, actor, params }) => readCopedent(house.db, actor, params.copedentId!));

export const PATCH = routeWithBody(copedentEditSchema, ({ house, actor, params, body }) =>
  changeCopedent(house.db, actor, params.copedentId!, body),
);

export const DELETE = route(({ house, actor, params }) =>
  removeCopedent(house.db, actor, params.copedentId!),
);
