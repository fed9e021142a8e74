import type { RecordBase } from "@/lib/document/records/records";

/** Ids of those of a list that are still in pencil. */
export function pencilledIds(list: readonly Pick<RecordBase, "id" | "mark">[]): string[] {
  return list.filter(({ mark }) => mark === "pencil").map(({ id }) => id);
}
