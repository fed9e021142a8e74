import { createContext, useContext } from "react";
import type { ChartDraft } from "@/lib/client/copedents/ChartDraft";
import type { ChartField } from "@/lib/client/copedents/ChartField";
import type { EditedDraft } from "@/lib/client/copedents/useDraft";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { StageId } from "@/lib/instrument/stages";

/** The string or the change whose fields are open. */
export interface InHand {
  kind: "string" | "change";
  key: string;
}

/** What every part of a copedent's page stands on. */
export interface CopedentOnDesk {
  draft: ChartDraft;
  edit: EditedDraft["edit"];
  mayEdit: boolean;
  faults: ReadonlyMap<ChartField, string>;
  /** As last read without a fault. */
  copedent: Copedent;
  inHand: InHand | null;
  takeInHand(what: InHand | null): void;
  /** The pedals and levers held on the neck below, and the fret of the bar. */
  engaged: readonly StageId[];
  engage(stages: readonly StageId[]): void;
  fret: number;
  setFret(fret: number): void;
}

export const CopedentContext = createContext<CopedentOnDesk | null>(null);

export function useCopedentDesk(): CopedentOnDesk {
  const desk = useContext(CopedentContext);
  if (!desk) throw new Error("This part stands outside a copedent's page.");
  return desk;
}
