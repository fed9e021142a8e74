import { route } from "@/lib/server/http/route";
import { revokeInvite } from "@/lib/server/services/revokeInvite";

export const DELETE = route(({ house, actor, params }) =>
  revokeInvite(house.db, actor, { bookId: params.bookId!, inviteId: params.inviteId! }),
);
