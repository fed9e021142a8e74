import type { ChartField } from "@/lib/client/copedents/ChartField";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { useCopedentDesk } from "./CopedentContext";
import { faultId } from "./Fault";

/** What every input of the chart has in common: it may be read only, and points to what is wrong in it. */
export function useFieldOf(field: ChartField) {
  const { mayEdit, faults } = useCopedentDesk();
  const isReady = useIsReady();
  const isFaulty = faults.has(field);
  return {
    readOnly: !mayEdit || !isReady,
    "aria-invalid": isFaulty,
    "aria-describedby": isFaulty ? faultId(field) : undefined,
  };
}
