import { route } from "@/lib/server/http/route";
import { readNotes } from "@/lib/server/services/readNotes";

export const GET = route(({ house, actor, params }) => readNotes(house.db, actor, params.songId!));
