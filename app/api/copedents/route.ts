import { newCopedentSchema } from "@/lib/contracts/copedents";
import { route, routeWithBody } from "@/lib/server/http/route";
import { createCopedent } from "@/lib/server/services/createCopedent";
import { listCopedents } from "@/lib/server/services/listCopedents";

export const GET = route(({ house, actor }) => listCopedents(house.db, actor));

export const POST = routeWithBody(newCopedentSchema, ({ house, actor, body }) =>
  createCopedent(house.db, actor, body),
);
