import type { CopedentRow } from "@/lib/contracts/copedents";
import type { Chart } from "@/lib/instrument/chart/Chart";
import type { Prisma } from "../db/generated/client";

/** What {@link toCopedentRow} reads, for one person: the books it is shared in are those of that person. */
export function copedentColumns(userId: string) {
  return {
    id: true,
    chart: true,
    revision: true,
    ownerId: true,
    updatedAt: true,
    owner: { select: { name: true } },
    shares: {
      where: { book: { members: { some: { userId } } } },
      orderBy: [{ sharedAt: "asc" }, { bookId: "asc" }],
      select: { bookId: true, book: { select: { title: true } } },
    },
  } as const satisfies Prisma.CopedentSelect;
}

type CopedentWithShares = Prisma.CopedentGetPayload<{ select: ReturnType<typeof copedentColumns> }>;

/** A copedent as one person sees it. */
export function toCopedentRow(row: CopedentWithShares, userId: string): CopedentRow {
  return {
    id: row.id,
    // Only charts that could be read were ever written.
    chart: row.chart as unknown as Chart,
    revision: row.revision,
    ownerId: row.ownerId,
    ownerName: row.owner.name,
    isOwn: row.ownerId === userId,
    sharedIn: row.shares.map(({ bookId, book }) => ({ bookId, bookTitle: book.title })),
    changedAt: row.updatedAt.toISOString(),
  };
}
