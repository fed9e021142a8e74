import { randomBytes } from "node:crypto";

/** A new id for a row: 120 random bits in 20 characters of base64url (RFC 4648, section 5). */
export function newId(): string {
  return randomBytes(15).toString("base64url");
}
