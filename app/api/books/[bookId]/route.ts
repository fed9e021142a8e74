import { route } from "@/lib/server/http/route";
import { readBook } from "@/lib/server/services/readBook";

export const GET = route(({ house, actor, params }) => readBook(house.db, actor, params.bookId!));
