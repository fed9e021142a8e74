import type { GroupProofs, Seen } from "./Proof";

const seen = (step: string) => {
  const at: Seen = { spec: "takes", step };
  return { key: at, pointer: at };
};
const WALKED = seen("takes are walked, heard and looped by keys and by hand");
const SHARED = seen("a take is shared, kept private again and removed, by keys and by hand");

/** On a take: acts.spec has no microphone. */
export const TAKES: GroupProofs = {
  "←": WALKED,
  "→": WALKED,
  Enter: WALKED,
  S: WALKED,
  R: WALKED,
  O: WALKED,
  "Shift S": SHARED,
  Backspace: SHARED,
};

/** Recording one, from anywhere. */
export const RECORDED = {
  key: {
    spec: "takes",
    step: "a stretch is recorded by its key along with the record, and lies on it to a few milliseconds",
  },
  pointer: {
    spec: "takes",
    step: "another is recorded by the button and stopped; one that Esc drops is not kept",
  },
} as const satisfies { key: Seen; pointer: Seen };
