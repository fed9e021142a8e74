import { isAppError } from "../AppError";
import { house } from "../house";
import { errorResponse } from "./route";
import { requireOwnOrigin } from "./sameOrigin";

/**
 * The routes of accounts, which better-auth answers. It looks at the origin only of requests that carry a cookie;
 * another site must not sign anyone in either.
 */
export async function accountRoute(request: Request): Promise<Response> {
  const { auth, origins } = house();
  try {
    requireOwnOrigin(request, origins);
  } catch (fault) {
    if (isAppError(fault)) return errorResponse(fault);
    throw fault;
  }
  return auth.handler(request);
}
