import { route } from "@/lib/server/http/route";
import { hearingStatus } from "@/lib/server/services/hearingStatus";

export const GET = route(({ house, actor, params }) => hearingStatus(house.db, actor, params.bookId!));
