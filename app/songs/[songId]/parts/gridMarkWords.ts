import { gridSureWords } from "@/lib/client/song/meterWords";
import type { GridRecord } from "@/lib/document/records/records";
import { markWords } from "./changeWords";

/** Whose pencil or ink the grid is; the machine is not as sure of the bars as of the beats. */
export function gridMarkWords(grid: GridRecord, nameOf: (userId: string) => string): string {
  const sure = gridSureWords(grid);
  return sure ? `${markWords({ ...grid, confidence: null }, nameOf)}, ${sure}` : markWords(grid, nameOf);
}
