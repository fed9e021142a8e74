import { route } from "@/lib/server/http/route";
import { readLimits } from "@/lib/server/services/readLimits";

export const GET = route(({ house }) => readLimits(house.config));
