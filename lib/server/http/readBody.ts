import { z } from "zod";
import { AppError } from "../AppError";

/**
 * Every body but a recording is read here; unless a route says otherwise it is no longer than this. The largest of them, a
 * copedent with all that its chart may hold, stays well below.
 */
const MAX_BYTES = 64 * 1024;

/**
 * Reads a body as text. What says that it is longer than `maxBytes` is not read at all.
 * @throws {AppError} body-too-large
 */
export async function readText(request: Request, maxBytes = MAX_BYTES): Promise<string> {
  const tooLarge = () => new AppError("body-too-large", { limit: `${maxBytes / 1024} KiB` });
  if (Number(request.headers.get("content-length")) > maxBytes) throw tooLarge();
  const chunks: Uint8Array[] = [];
  let byteCount = 0;
  for await (const chunk of request.body ?? []) {
    byteCount += chunk.byteLength;
    if (byteCount > maxBytes) throw tooLarge();
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString("utf8");
}

/**
 * Reads a JSON body, as long as {@link readText} reads.
 * @throws {AppError} body-too-large; bad-request, naming the field at fault
 */
export async function readBody<T>(request: Request, schema: z.ZodType<T>, maxBytes?: number): Promise<T> {
  return parseJson(await readText(request, maxBytes), schema);
}

/**
 * Reads JSON that came from a page.
 * @throws {AppError} bad-request, naming the field at fault
 */
export function parseJson<T>(text: string, schema: z.ZodType<T>): T {
  // PostgreSQL holds no NUL in texts.
  if (/\\u0000/i.test(text)) throw new AppError("bad-request", { detail: "it holds a NUL character" });
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new AppError("bad-request", { detail: "it is not JSON" });
  }
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const [first] = result.error.issues;
  const at = first?.path.join(".") ?? "";
  throw new AppError("bad-request", {
    detail: [at, first?.message].filter(Boolean).join(": ") || z.prettifyError(result.error),
  });
}
