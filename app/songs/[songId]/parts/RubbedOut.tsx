"use client";

import { useMemo } from "react";
import type * as Y from "yjs";
import controls from "@/app/parts/controls.module.css";
import { placeWords, type SongGrid } from "@/lib/client/axis/songGrid";
import { clockText, printed } from "@/lib/client/format/format";
import { shortened } from "@/lib/client/questions/shortened";
import { partName } from "@/lib/client/song/partAtHand";
import { sectionName } from "@/lib/client/song/sectionWords";
import { studyName } from "@/lib/client/song/studyWords";
import { restore } from "@/lib/document/commands/restore";
import type { CoveredSong } from "@/lib/document/read/coverSong";
import { readSaidPart } from "@/lib/document/read/readHead";
import { readSaid } from "@/lib/document/read/readQuestions";
import { type RubbedOut as RubbedOutRecord, readRubbedOut } from "@/lib/document/read/readRubbedOut";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import { FIRST_PART } from "@/lib/document/records/storage";
import { keyToWords } from "@/lib/theory/key";
import { changeText, numberAndName } from "./changeWords";
import { type Desk, useDesk } from "./DeskContext";
import { FoldedList } from "./FoldedList";
import { withQuestions } from "./laterQuestions";
import { numberKeyAt } from "./selection";

interface Row {
  /** Of what was asked or answered, and taken back by whoever looks, `said`. */
  kind: "change" | "bass" | "note" | "section" | "home" | "part" | "study" | "said";
  id: string;
  startSec: number;
  text: string;
  rubbedBy: string;
}

/** What was rubbed out, by whomever: nothing is lost, anything can be put back. */
export function RubbedOut() {
  const desk = useDesk();
  const { opened, grid, nameOf, mayWrite, covered, page } = desk;
  const { song, connection } = opened;
  const rows = useMemo(
    () =>
      [...readRows(connection.doc, { song, grid, covered }), ...takenBack(connection.doc, page.me.id)].sort(
        (a, b) => a.startSec - b.startSec,
      ),
    [connection.doc, song, grid, covered, page.me.id],
  );
  if (rows.length === 0) return null;
  return (
    <FoldedList summary={`Rubbed out (${rows.length})`}>
      {() => (
        <table>
          <thead>
            <tr>
              <th scope="col">Where</th>
              <th scope="col">What</th>
              <th scope="col">By</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={`${row.kind}.${row.id}`}>
                <td>{placeWords(grid, row.startSec) || clockText(row.startSec)}</td>
                <td>
                  {row.text}{" "}
                  {mayWrite ? (
                    <button type="button" className={controls.link} onClick={() => putBack(desk, row)}>
                      Put back
                    </button>
                  ) : null}
                </td>
                <td>{nameOf(row.rubbedBy)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </FoldedList>
  );
}

function putBack(desk: Desk, { kind, id }: Row): void {
  if (kind === "said") void withQuestions(desk, (acts) => acts.putBack(id));
  else desk.opened.acts.run((ctx) => restore(ctx, kind, id));
}

/** What a person asked or answered, and took back. */
function takenBack(doc: Y.Doc, by: string): Row[] {
  const said = readSaid(doc);
  return [...said.values()].flatMap((each): Row[] => {
    const { id, question, stretch, words } = each;
    const where = stretch ?? said.get(question ?? "")?.stretch;
    if (each.by !== by || each.takenBackAtMs === null || !where) return [];
    const text = `${question === null ? "question" : "answer"} “${shortened(words)}”`;
    return [{ kind: "said", id, startSec: where.startSec, text, rubbedBy: by }];
  });
}

/** Of which part an event was, where there are several or that one was taken away. */
function nameOfPart(doc: Y.Doc, { parts }: SongSnapshot, id: string): string {
  if (parts.length < 2 && id === FIRST_PART) return "";
  if (parts.some((part) => part.id === id)) return `${partName(parts, id)}: `;
  return `${readSaidPart(doc, id).name || "a part that was taken away"}: `;
}

/** Rows of all that is rubbed out and not covered for who looks. */
function readRows(
  doc: Parameters<typeof readRubbedOut>[0],
  { song, grid, covered }: { song: SongSnapshot; grid: SongGrid | null; covered: CoveredSong },
): Row[] {
  const read = <K extends Exclude<Row["kind"], "said">>(kind: K): RubbedOutRecord<K>[] =>
    readRubbedOut(doc, kind).filter(({ record }) => !covered.hides(kind, record));
  const changes = read("change").map(({ record, rubbedBy }): Row => {
    const { degree, rest, letters } = changeText(record.label, numberKeyAt(song, record.startSec));
    const { id, startSec } = record;
    return { kind: "change", id, startSec, text: `${degree}${rest} ${letters}`.trim(), rubbedBy };
  });
  const events = read("part").map(({ record, rubbedBy }): Row => {
    const { id, part, startSec, strings, fret, changes: engaged } = record;
    return {
      kind: "part",
      id,
      startSec,
      text: `${nameOfPart(doc, song, part)}${strings.join("·")} fret ${fret} ${engaged.join("+")}`,
      rubbedBy,
    };
  });
  const notes = read("bass").map(({ record: { id, startSec, midi }, rubbedBy }): Row => {
    const text = `bass ${numberAndName(midi, song, startSec)}`;
    return { kind: "bass", id, startSec, text, rubbedBy };
  });
  const heard = read("note").map(({ record: { id, startSec, midi }, rubbedBy }): Row => {
    const text = `note ${numberAndName(midi, song, startSec)}`;
    return { kind: "note", id, startSec, text, rubbedBy };
  });
  const sections = read("section").map(({ record, rubbedBy }): Row => {
    const { id, startSec } = record;
    return { kind: "section", id, startSec, text: `section ${sectionName(record)}`, rubbedBy };
  });
  const homes = read("home").map(({ record, rubbedBy }): Row => {
    const { id, startSec } = record;
    return { kind: "home", id, startSec, text: `home ${printed(keyToWords(record))}`, rubbedBy };
  });
  const studies = read("study").map(({ record, rubbedBy }): Row => {
    const { id, startSec } = record;
    return { kind: "study", id, startSec, text: `passage ${studyName(record, grid)}`, rubbedBy };
  });
  return [...changes, ...notes, ...heard, ...sections, ...homes, ...events, ...studies];
}
