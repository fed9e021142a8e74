import { createHash } from "node:crypto";
import type { InviteRow } from "@/lib/contracts/books";
import type { Role } from "@/lib/contracts/roles";

/** What {@link inviteRow} reads of an invitation's row. */
export const INVITE_COLUMNS = {
  id: true,
  role: true,
  usesLeft: true,
  expiresAt: true,
  madeBy: { select: { name: true } },
} as const;

interface InviteWithMaker {
  id: string;
  role: Role;
  usesLeft: number | null;
  expiresAt: Date;
  madeBy: { name: string };
}

export function inviteRow({ id, role, usesLeft, expiresAt, madeBy }: InviteWithMaker): InviteRow {
  return { id, role, usesLeft, expiresAt: expiresAt.toISOString(), madeByName: madeBy.name };
}

/** Condition of an invitation that still works. */
export function stillOpen(now: Date) {
  return {
    revokedAt: null,
    expiresAt: { gt: now },
    OR: [{ usesLeft: null }, { usesLeft: { gt: 0 } }],
  };
}

/** What is kept of a link's token: its SHA-256 in hexadecimal. */
export function hashToken(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}
