import type { z } from "zod";
import { AppError } from "../AppError";
import { encodedHeader } from "./encodedHeader";
import { parseJson } from "./readBody";

/**
 * A header that holds JSON, put through encodeURIComponent.
 * @throws {AppError} bad-request where it is missing, or naming the field at fault
 */
export function headerJson<T>(request: Request, name: string, schema: z.ZodType<T>): T {
  const text = encodedHeader(request, name);
  if (text === null) throw new AppError("bad-request", { detail: `the header ${name} is missing` });
  return parseJson(text, schema);
}
