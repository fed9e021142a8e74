import { house } from "@/lib/server/house";

const handle = (request: Request): Promise<Response> => house().auth.handler(request);

export { handle as GET, handle as POST };
