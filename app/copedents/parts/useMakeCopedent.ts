import { useRouter } from "next/navigation";
import { useState } from "react";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api, pages } from "@/lib/contracts/api";
import type { CopedentRow, NewCopedent } from "@/lib/contracts/copedents";
import type { Chart } from "@/lib/instrument/chart/Chart";

/** Keeps a new copedent of one's own and opens its page. */
export function useMakeCopedent() {
  const router = useRouter();
  const [fault, setFault] = useState<string | null>(null);
  const [isMaking, setIsMaking] = useState(false);

  async function make(chart: Chart): Promise<void> {
    setFault(null);
    setIsMaking(true);
    try {
      const order: NewCopedent = { chart };
      const row = await request<CopedentRow>("POST", api.copedents(), order);
      router.push(pages.copedent(row.id));
    } catch (thrown) {
      setFault(wordsOf(thrown));
      setIsMaking(false);
    }
  }
  return { make, isMaking, fault };
}
