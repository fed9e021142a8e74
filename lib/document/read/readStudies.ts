import type { StudyRecord } from "../records/records";
import { compareText } from "./rank";
import type { ShownStudy } from "./SongSnapshot";

/**
 * Studies, any number over one another, each with its number (rule D40).
 * @returns in order of time, then id; the same for any order of the records
 */
export function readStudies(records: readonly StudyRecord[]): ShownStudy[] {
  return [...records]
    .sort((a, b) => a.startSec - b.startSec || compareText(a.id, b.id))
    .map((study, index) => ({ ...study, number: index + 1 }));
}
