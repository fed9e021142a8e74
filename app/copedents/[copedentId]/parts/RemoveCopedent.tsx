"use client";

import { useRouter } from "next/navigation";
import { RemovalSheet } from "@/app/parts/RemovalSheet";
import { api, pages } from "@/lib/contracts/api";
import type { CopedentPage } from "@/lib/contracts/copedents";

/** Asks before a copedent goes, and says what stays. */
export function RemoveCopedent({ kept, onClose }: { kept: CopedentPage; onClose: () => void }) {
  const router = useRouter();
  return (
    <RemovalSheet
      title="Remove this copedent"
      address={api.copedent(kept.id)}
      onRemoved={() => router.push(pages.copedents())}
      onClose={onClose}
    >
      <strong>{kept.chart.name}</strong> goes from your list, and from the books that it is shared in. Parts
      that were written on it keep their copy of its chart. Nothing brings it back; to keep it, take the chart
      out first.
    </RemovalSheet>
  );
}
