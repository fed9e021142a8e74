import { route } from "@/lib/server/http/route";

export const GET = route(({ house }) => house.earFiles.list());
