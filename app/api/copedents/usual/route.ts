import { usualCopedentSchema } from "@/lib/contracts/copedents";
import { routeWithBody } from "@/lib/server/http/route";
import { chooseUsualCopedent } from "@/lib/server/services/chooseUsualCopedent";

export const PUT = routeWithBody(usualCopedentSchema, ({ house, actor, body }) =>
  chooseUsualCopedent(house.db, actor, body),
);
