import type * as Y from "yjs";
import type { EpochMs } from "@/lib/units/quantities";
import type { RecordKind, RecordKinds } from "../records/records";
import { settleKind } from "./settle";

/** A record that is rubbed out, and by whom; `restore` puts it back. */
export interface RubbedOut<K extends RecordKind> {
  record: RecordKinds[K];
  /** The latest of those who rubbed it out. */
  rubbedBy: string;
  rubbedAtMs: EpochMs;
}

/** Records of one kind that are rubbed out, the latest first. */
export function readRubbedOut<K extends RecordKind>(doc: Y.Doc, kind: K): RubbedOut<K>[] {
  return [...settleKind(doc, kind, ({ rubs }) => rubs.size > 0).values()]
    .flatMap(({ standing, record, rubs }) => {
      const [latest] = [...rubs].sort((a, b) => b.atMs - a.atMs);
      if (standing !== "rubbedOut" || latest === undefined) return [];
      return [{ record, rubbedBy: latest.by, rubbedAtMs: latest.atMs }];
    })
    .sort((a, b) => b.rubbedAtMs - a.rubbedAtMs || (a.record.id < b.record.id ? -1 : 1));
}
