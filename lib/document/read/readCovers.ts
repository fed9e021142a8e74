import type * as Y from "yjs";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import {
  COVERS,
  type Cover,
  type CoveredFor,
  LOOKED_PREFIX,
  type Look,
  SELF_PREFIX,
  STUDENTS_PREFIX,
} from "../records/covers";
import { isGuessLane, readKeptCover, readKeptLook } from "../records/guessGuards";
import { recordMap, splitKey } from "../records/storage";
import { compareText } from "./rank";

/** What is kept covered of a song, for whom, and who looked where. */
export interface SongCovers {
  /** Those that lie there now, in order of target, lane and whom they are for. */
  covers: Cover[];
  /** In order of target, lane and person. */
  looks: Look[];
}

/** Reads all covers (rule D44). Never throws: what cannot be read is passed over (rule D5). */
export function readCovers(doc: Y.Doc): SongCovers {
  const covers: Cover[] = [];
  const looks: Look[] = [];
  recordMap(doc, COVERS).forEach((value, key) => {
    const parts = splitKey(key);
    if (!parts) return;
    const { recordId: target, register } = parts;
    const named = readName(register);
    if (!named) return;
    const { what, lane, person } = named;
    if (what === "look") {
      const look = readKeptLook(value);
      if (look) looks.push({ target, lane, by: person, ...look });
      return;
    }
    const cover = readKeptCover(value);
    if (!cover?.isCovered || (what === "self" && cover.by !== person)) return;
    const { stamp, by, atMs } = cover;
    covers.push({ target, lane, coveredFor: what, stamp, by, atMs });
  });
  return {
    covers: covers.sort(
      (a, b) => comparePlace(a, b) || compareText(a.coveredFor, b.coveredFor) || byPerson(a, b),
    ),
    looks: looks.sort((a, b) => comparePlace(a, b) || byPerson(a, b)),
  };
}

function readName(register: string): { what: CoveredFor | "look"; lane: GuessLane; person: string } | null {
  if (register.startsWith(STUDENTS_PREFIX)) {
    const lane = register.slice(STUDENTS_PREFIX.length);
    return isGuessLane(lane) ? { what: "students", lane, person: "" } : null;
  }
  for (const [prefix, what] of [
    [SELF_PREFIX, "self"],
    [LOOKED_PREFIX, "look"],
  ] as const) {
    if (!register.startsWith(prefix)) continue;
    const rest = register.slice(prefix.length);
    const dot = rest.indexOf(".");
    const [lane, person] = [rest.slice(0, dot), rest.slice(dot + 1)];
    // Person ids may hold dots, lanes hold none.
    return dot > 0 && isGuessLane(lane) && person !== "" ? { what, lane, person } : null;
  }
  return null;
}

function comparePlace(a: { target: string; lane: string }, b: { target: string; lane: string }): number {
  return compareText(a.target, b.target) || compareText(a.lane, b.lane);
}

function byPerson(a: { by: string }, b: { by: string }): number {
  return compareText(a.by, b.by);
}
