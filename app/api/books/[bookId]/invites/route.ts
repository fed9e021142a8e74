import { newInviteSchema } from "@/lib/contracts/books";
import { routeWithBody } from "@/lib/server/http/route";
import { createInvite } from "@/lib/server/services/createInvite";

export const POST = routeWithBody(newInviteSchema, ({ house, actor, params, body }) =>
  createInvite(house.db, actor, { ...body, bookId: params.bookId!, origin: house.origins[0]! }),
);
