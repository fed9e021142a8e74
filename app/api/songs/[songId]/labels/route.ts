import { labelsOrderSchema } from "@/lib/contracts/labels";
import { routeWithBody } from "@/lib/server/http/route";
import { exportSongLabels } from "@/lib/server/services/exportLabels";

export const POST = routeWithBody(labelsOrderSchema, ({ house, actor, params, body }) =>
  exportSongLabels(house, actor, params.songId!, body.kinds),
);
