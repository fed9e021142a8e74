import type { SlotCode } from "@/lib/instrument/chart/slotCode";

/** Where a change is worked, in words. */
export const SLOT_WORDS: Readonly<Record<SlotCode, string>> = {
  P0: "pedal 0, left of pedal 1",
  P1: "pedal 1",
  P2: "pedal 2",
  P3: "pedal 3",
  P4: "pedal 4",
  P5: "pedal 5",
  P6: "pedal 6",
  P7: "pedal 7",
  P8: "pedal 8",
  P9: "pedal 9",
  LKL: "left knee to the left",
  LKV: "left knee up",
  LKR: "left knee to the right",
  RKL: "right knee to the left",
  RKV: "right knee up",
  RKR: "right knee to the right",
  HAND: "by hand, behind the bar",
  LOCK: "a lock, which stays on",
};

/** As it stands over a column of the chart. */
export function slotShort(slot: SlotCode): string {
  return slot === "HAND" ? "hand" : slot === "LOCK" ? "lock" : slot;
}
