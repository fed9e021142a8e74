import { labelsOrderSchema } from "@/lib/contracts/labels";
import { routeWithBody } from "@/lib/server/http/route";
import { exportBookLabels } from "@/lib/server/services/exportLabels";

export const POST = routeWithBody(labelsOrderSchema, ({ house, actor, params, body }) =>
  exportBookLabels(house, actor, params.bookId!, body.kinds),
);
