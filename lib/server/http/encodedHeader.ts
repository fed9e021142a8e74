import { AppError } from "../AppError";

/**
 * A header whose text was put through encodeURIComponent; null where it is missing.
 * @throws {AppError} bad-request where it cannot be decoded
 */
export function encodedHeader(request: Request, name: string): string | null {
  const text = request.headers.get(name);
  if (text === null) return null;
  try {
    return decodeURIComponent(text);
  } catch {
    throw new AppError("bad-request", { detail: `${name} is not encoded as a URI component` });
  }
}
