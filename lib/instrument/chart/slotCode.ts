import type { Slot } from "../Copedent";

/**
 * Where a change is worked, as charts write it: floor pedals `P0` to `P9` from left to right; levers by knee and way,
 * as in `LKL`, left knee to the left, and `RKV`, right knee up (vertical); `HAND` for a finger behind the bar, `LOCK`
 * for one that stays engaged by itself.
 */
export const SLOTS = {
  P0: { kind: "pedal", place: 0 },
  P1: { kind: "pedal", place: 1 },
  P2: { kind: "pedal", place: 2 },
  P3: { kind: "pedal", place: 3 },
  P4: { kind: "pedal", place: 4 },
  P5: { kind: "pedal", place: 5 },
  P6: { kind: "pedal", place: 6 },
  P7: { kind: "pedal", place: 7 },
  P8: { kind: "pedal", place: 8 },
  P9: { kind: "pedal", place: 9 },
  LKL: { kind: "knee", knee: "left", throw: "left" },
  LKV: { kind: "knee", knee: "left", throw: "up" },
  LKR: { kind: "knee", knee: "left", throw: "right" },
  RKL: { kind: "knee", knee: "right", throw: "left" },
  RKV: { kind: "knee", knee: "right", throw: "up" },
  RKR: { kind: "knee", knee: "right", throw: "right" },
  HAND: { kind: "hand" },
  LOCK: { kind: "lock" },
} as const satisfies Record<string, Slot>;

export type SlotCode = keyof typeof SLOTS;

const THROW_LETTERS = { left: "L", up: "V", right: "R" } as const;

/** The code of a slot. */
export function slotToCode(slot: Slot): SlotCode {
  switch (slot.kind) {
    case "pedal":
      return `P${slot.place}` as SlotCode;
    case "knee":
      return `${slot.knee === "left" ? "L" : "R"}K${THROW_LETTERS[slot.throw]}`;
    case "hand":
      return "HAND";
    case "lock":
      return "LOCK";
  }
}

/** Whether the text is the code of a slot. */
export function isSlotCode(text: unknown): text is SlotCode {
  return typeof text === "string" && Object.hasOwn(SLOTS, text);
}
