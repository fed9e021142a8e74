import { createContext, useContext } from "react";
import type { KeptDrafts } from "@/lib/client/questions/KeptDrafts";

/** What the person has begun to write, for the forms of the questions. */
export const DraftsHere = createContext<KeptDrafts | null>(null);

export function useDrafts(): KeptDrafts {
  const drafts = useContext(DraftsHere);
  if (!drafts) throw new Error("This part stands outside the questions.");
  return drafts;
}
