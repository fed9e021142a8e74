import { house } from "../house";
import { readText } from "./readBody";
import { faultResponse } from "./route";
import { requireOwnOrigin } from "./sameOrigin";

/**
 * The routes of accounts, which better-auth answers. It looks at the origin only of requests that carry a cookie;
 * another site must not sign anyone in either. And it reads a body of any size, from anyone.
 */
export async function accountRoute(request: Request): Promise<Response> {
  const opened = house();
  try {
    requireOwnOrigin(request, opened.origins);
    if (request.body === null) return await opened.auth.handler(request);
    const { url, method, headers } = request;
    return await opened.auth.handler(new Request(url, { method, headers, body: await readText(request) }));
  } catch (fault) {
    return faultResponse(fault, opened, request);
  }
}
