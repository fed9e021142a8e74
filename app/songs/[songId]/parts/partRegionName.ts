import type { SongPart } from "@/lib/document/read/SongSnapshot";

/** What the lane of a part is called where it is heard and not seen: a bass that is a part is not the lane of the bass line. */
export function partRegionName(part: Pick<SongPart, "name">, calledSo: string): string {
  return part.name === "" ? calledSo : `${calledSo}, part`;
}
