import type { z } from "zod";
import { ERRORS, type ErrorBody } from "@/lib/contracts/errors";
import { AppError, isAppError } from "../AppError";
import { type Actor, readSession } from "../auth/session";
import { type House, house } from "../house";
import { newId } from "../newId";
import { readBody } from "./readBody";
import { requireOwnOrigin } from "./sameOrigin";

/** What a route works with. `body` is there where a schema was given. */
export interface RouteContext<Body> {
  house: House;
  actor: Actor;
  request: Request;
  /** The address's own parts, such as `bookId`. */
  params: Readonly<Record<string, string>>;
  body: Body;
}

/** A `Response` goes out as it is, `undefined` as 204, anything else as JSON. */
export type RouteHandler<Body> = (context: RouteContext<Body>) => Promise<unknown>;

/** What Next calls. */
type NextRoute = (
  request: Request,
  context: { params: Promise<Record<string, string> | undefined> },
) => Promise<Response>;

const PARAM = /^[A-Za-z0-9_-]{1,64}$/;

/** The answer to a refusal, as {@link ErrorBody}. */
function errorResponse(error: AppError): Response {
  const body: ErrorBody = { error: { code: error.code, message: error.message } };
  return Response.json(body, { status: ERRORS[error.code].status, headers: { "cache-control": "no-store" } });
}

/** Turns whatever was thrown into an answer; what nobody foresaw is logged under a number that the person is told. */
export function faultResponse(fault: unknown, { log }: House, request: Request): Response {
  if (isAppError(fault)) return errorResponse(fault);
  const incident = newId().slice(0, 8);
  log.error(
    { err: fault, incident, method: request.method, path: new URL(request.url).pathname },
    "a route failed",
  );
  return errorResponse(new AppError("server-fault", { incident }));
}

function answer(value: unknown): Response {
  if (value instanceof Response) return value;
  const headers = { "cache-control": "no-store" };
  return value === undefined
    ? new Response(null, { status: 204, headers })
    : Response.json(value, { headers });
}

function build<Body>(
  schema: z.ZodType<Body> | null,
  handle: RouteHandler<Body>,
  maxBytes?: number,
): NextRoute {
  return async (request, context) => {
    const opened = house();
    try {
      requireOwnOrigin(request, opened.origins);
      const actor = await readSession(opened.auth, request.headers);
      if (!actor) throw new AppError("not-signed-in");
      const params = (await context.params) ?? {};
      if (!Object.values(params).every((value) => PARAM.test(value))) throw new AppError("not-found");
      const body = schema ? await readBody(request, schema, maxBytes) : (undefined as Body);
      return answer(await handle({ house: opened, actor, request, params, body }));
    } catch (fault) {
      return faultResponse(fault, opened, request);
    }
  };
}

/**
 * Makes one route for people who are signed in: checks the session, where the request came from and the address's
 * parts, and turns refusals into answers.
 */
export function route(handle: RouteHandler<undefined>): NextRoute {
  return build<undefined>(null, handle);
}

/** As {@link route}, with a JSON body checked against the schema. @param maxBytes where it may be longer than others */
export function routeWithBody<Body>(
  schema: z.ZodType<Body>,
  handle: RouteHandler<Body>,
  maxBytes?: number,
): NextRoute {
  return build(schema, handle, maxBytes);
}
