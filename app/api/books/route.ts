import { newBookSchema } from "@/lib/contracts/books";
import { route, routeWithBody } from "@/lib/server/http/route";
import { createBook } from "@/lib/server/services/createBook";
import { listBooks } from "@/lib/server/services/listBooks";

export const GET = route(({ house, actor }) => listBooks(house.db, actor));

export const POST = routeWithBody(newBookSchema, ({ house, actor, body }) =>
  createBook(house.db, actor, body),
);
