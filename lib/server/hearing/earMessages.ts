import type { Hearing } from "@/lib/hearing/Hearing";
import type { ProcessWord, Reading } from "../media/mediaOrders";
import type { RunStep } from "./runWeights";

/** What the worker thread is started with. */
export interface EarOrder extends Reading {
  /** False where the record's peaks are there already. */
  peaksWanted: boolean;
  /** Where the copy that passages are heard from is to be written; null where there is one already. */
  earCopyPath: string | null;
}

/** What the worker thread says as it works; `heard` or `fault` is its last word. */
export type EarWord =
  | { kind: "progress"; step: RunStep; fraction: number }
  | ProcessWord
  | { kind: "peaks"; data: Uint8Array }
  /** The copy is whole. */
  | { kind: "ear-copy" }
  | { kind: "heard"; hearing: Hearing }
  | { kind: "fault"; message: string };
