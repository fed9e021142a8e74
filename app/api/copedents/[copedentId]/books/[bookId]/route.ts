import { route } from "@/lib/server/http/route";
import { shareCopedent } from "@/lib/server/services/shareCopedent";
import { unshareCopedent } from "@/lib/server/services/unshareCopedent";

export const PUT = route(({ house, actor, params }) =>
  shareCopedent(house.db, actor, params.copedentId!, params.bookId!),
);

export const DELETE = route(({ house, actor, params }) =>
  unshareCopedent(house.db, actor, params.copedentId!, params.bookId!),
);
