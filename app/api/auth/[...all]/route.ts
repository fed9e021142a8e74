import { accountRoute } from "@/lib/server/http/accountRoute";

export { accountRoute as GET, accountRoute as POST };
