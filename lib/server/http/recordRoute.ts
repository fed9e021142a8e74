import type { IncomingMessage, ServerResponse } from "node:http";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { ReadableStream } from "node:stream/web";
import { api } from "@/lib/contracts/api";
import { webHeaders } from "../auth/session";
import { openRecord } from "../services/openRecord";
import { rangedResponse } from "../storage/rangedResponse";
import { route } from "./route";

/** GET and HEAD of a song's record, whole or by ranges. */
export const recordRoute = route(async ({ house, actor, request, params }) =>
  rangedResponse(request, await openRecord(house, actor, params.songId!)),
);

const ADDRESS = /^\/api\/songs\/([^/?]+)\/record(?:\?|$)/;

/** The song whose record a request asks for; null where it asks for something else. */
export function recordAskedFor({ method, url = "" }: Pick<IncomingMessage, "method" | "url">): string | null {
  return method === "GET" || method === "HEAD" ? (ADDRESS.exec(url)?.[1] ?? null) : null;
}

/**
 * Answers for a record in Next's stead, which leaves out the length of what it sends: players need it to show how
 * much is there, and to tell a whole answer from one that broke off.
 */
export async function sendRecord(songId: string, req: IncomingMessage, res: ServerResponse): Promise<void> {
  const address = new URL(api.record(songId), "http://liftbook.invalid");
  const request = new Request(address, { method: req.method, headers: webHeaders(req.headers) });
  const response = await recordRoute(request, { params: Promise.resolve({ songId }) });
  for (const [name, value] of response.headers) res.setHeader(name, value);
  res.writeHead(response.status);
  if (!response.body) res.end();
  // Where the listener goes away, or the disk fails, the line is ended and the file closed.
  else await pipeline(Readable.fromWeb(response.body as ReadableStream), res).catch(() => res.destroy());
}
