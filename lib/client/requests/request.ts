import type { ErrorBody } from "@/lib/contracts/errors";

/** An answer that is not the one hoped for; the message is in words for people. */
export class RequestError extends Error {
  override readonly name = "RequestError";
  constructor(
    message: string,
    /** From the error table, or null where the server could not be reached or answered nothing readable. */
    readonly code: string | null,
    readonly status: number,
  ) {
    super(message);
  }
}

export const UNREACHED =
  "The server could not be reached. Nothing was sent. Check the connection and try again.";

/**
 * Fetches from this server.
 * @param unreached what to say where it cannot be reached
 * @throws RequestError then; the signal's reason where that ended it
 */
export async function reach(url: string, init: RequestInit, unreached = UNREACHED): Promise<Response> {
  try {
    return await fetch(url, { credentials: "same-origin", ...init });
  } catch (cause) {
    if (init.signal?.aborted) throw cause;
    throw new RequestError(unreached, null, 0);
  }
}

/**
 * One request to the HTTP interface; the body, where there is one, travels as JSON.
 * @returns the answer's JSON, or undefined where the answer is empty
 * @throws RequestError with the server's own words
 */
export async function request<T>(
  method: string,
  url: string,
  body?: unknown,
  signal?: AbortSignal,
): Promise<T> {
  const response = await reach(url, {
    method,
    headers: body === undefined ? {} : { "content-type": "application/json" },
    body: body === undefined ? undefined : JSON.stringify(body),
    signal,
  });
  const text = await response.text();
  if (!response.ok) throw errorOf(text, response.status);
  return (text === "" ? undefined : JSON.parse(text)) as T;
}

/** The error that an answer's body carries, as {@link RequestError}. */
export function errorOf(text: string, status: number): RequestError {
  const body = readErrorBody(text);
  if (body) return new RequestError(body.error.message, body.error.code, status);
  return new RequestError(
    `The server answered ${status} without a reason. Nothing was changed.`,
    null,
    status,
  );
}

/** What went wrong, in words, whatever was thrown. */
export function wordsOf(fault: unknown): string {
  return fault instanceof Error ? fault.message : String(fault);
}

function readErrorBody(text: string): ErrorBody | null {
  try {
    const parsed: unknown = JSON.parse(text);
    if (typeof parsed !== "object" || parsed === null || !("error" in parsed)) return null;
    const { error } = parsed;
    if (typeof error !== "object" || error === null || !("message" in error)) return null;
    return typeof error.message === "string" ? (parsed as ErrorBody) : null;
  } catch {
    return null;
  }
}
