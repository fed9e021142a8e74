import { APIError } from "better-auth/api";
import { z } from "zod";
import { NAME_LENGTH } from "@/lib/contracts/accounts";

const nameSchema = z
  .string()
  .trim()
  .min(NAME_LENGTH.min)
  .max(NAME_LENGTH.max)
  // PostgreSQL holds no NUL in texts, and no name has a control character in it.
  .regex(/^\P{Cc}*$/u);

/**
 * What is to be stored of a person, with the name checked where it is in it: everyone in a book gets to see it.
 * @throws {APIError} 400
 */
export async function withCheckedName<Data extends { name?: unknown }>(
  person: Data,
): Promise<{ data: Data }> {
  if (person.name === undefined) return { data: person };
  const name = nameSchema.safeParse(person.name);
  if (name.success) return { data: { ...person, name: name.data } };
  throw new APIError("BAD_REQUEST", {
    code: "NAME_REFUSED",
    message: `A name has ${NAME_LENGTH.min} to ${NAME_LENGTH.max} letters. Nothing was changed.`,
  });
}
