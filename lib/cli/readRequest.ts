import { readFile } from "node:fs/promises";
import type { z } from "zod";
import type { CommandStreams } from "./CommandStreams";

/** Why a command's request cannot be taken, in one line for people. */
export class RequestFault extends Error {
  override readonly name = "RequestFault";
}

/**
 * Reads a command's request: one JSON value in a file, or on standard input for `-`.
 * @throws RequestFault where it cannot be read, or is no JSON
 */
export async function readJson(path: string, { stdin }: Pick<CommandStreams, "stdin">): Promise<unknown> {
  let text: string;
  try {
    text = path === "-" ? await readAll(stdin) : await readFile(path, "utf8");
  } catch (error) {
    throw new RequestFault(`Could not read ${path}: ${wordsOf(error)}`);
  }
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new RequestFault(`${path === "-" ? "The input" : path} is not JSON: ${wordsOf(error)}`);
  }
}

/**
 * A request of the shape that a command takes.
 * @param doing what the command does with it, as in "place this": begins the words of a fault
 * @throws RequestFault at the first fault
 */
export function checkRequest<T>(json: unknown, schema: z.ZodType<T>, doing: string): T {
  const read = schema.safeParse(json);
  if (!read.success) throw new RequestFault(firstFault(read.error, doing));
  return read.data;
}

async function readAll(stream: AsyncIterable<Buffer | string>): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of stream) chunks.push(Buffer.from(chunk));
  return Buffer.concat(chunks).toString("utf8");
}

function firstFault(error: z.ZodError, doing: string): string {
  const [issue] = error.issues;
  const at = (issue?.path ?? []).reduce<string>(
    (path, step) =>
      typeof step === "number" ? `${path}[${step}]` : path === "" ? String(step) : `${path}.${String(step)}`,
    "",
  );
  return `Cannot ${doing}: ${at === "" ? "the input" : at} ${issue?.message ?? "is not as it should be"}.`;
}

function wordsOf(error: unknown): string {
  return (error instanceof Error ? error.message : String(error)).replace(/\s+/g, " ");
}
