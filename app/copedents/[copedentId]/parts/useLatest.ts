import { useRouter } from "next/navigation";
import { useEffect, useRef } from "react";
import { request } from "@/lib/client/requests/request";
import { api } from "@/lib/contracts/api";
import type { CopedentPage } from "@/lib/contracts/copedents";

/**
 * Loads the page anew where it shows a copedent as it was: going back in the browser brings pages up as they were first
 * opened, and what is typed there would be refused. What has been typed before the answer comes is not taken away for it:
 * saving it then says that the copedent was changed.
 * @param isTouched whether anything was edited since the page was opened
 */
export function useLatest(kept: Pick<CopedentPage, "id" | "revision"> | null, isTouched: boolean): void {
  const router = useRouter();
  const isTouchedNow = useRef(isTouched);
  isTouchedNow.current = isTouched;
  const id = kept?.id;
  const revision = kept?.revision;
  useEffect(() => {
    if (id === undefined) return;
    const asking = new AbortController();
    request<CopedentPage>("GET", api.copedent(id), undefined, asking.signal).then(
      (latest) => {
        if (latest.revision !== revision && !isTouchedNow.current) router.refresh();
      },
      () => {
        // Unreachable, or removed: the next act says so.
      },
    );
    return () => asking.abort();
  }, [id, revision, router]);
}
