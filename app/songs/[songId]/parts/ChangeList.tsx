"use client";

import controls from "@/app/parts/controls.module.css";
import { barAt } from "@/lib/client/axis/songGrid";
import { keepInView } from "@/lib/client/axis/timeAxis";
import { clockText } from "@/lib/client/format/format";
import { changeText, markCell } from "./changeWords";
import { useDesk } from "./DeskContext";
import { FoldedList } from "./FoldedList";
import { numberKeyAt, selectedChange } from "./selection";

/** All changes as a plain list, for those who would rather read than look, and for those who hear the page. */
export function ChangeList() {
  const { opened, grid, selection, select, axis, nameOf } = useDesk();
  const { song } = opened;
  const chosen = selectedChange(song, selection);
  if (song.changes.length === 0) return null;
  return (
    <FoldedList summary="List of changes">
      {() => (
        <table>
          <thead>
            <tr>
              <th scope="col">{grid ? "Bar" : "Time"}</th>
              <th scope="col">Change</th>
              <th scope="col">Mark</th>
            </tr>
          </thead>
          <tbody>
            {song.changes.map((change) => {
              const { degree, rest, letters } = changeText(change.label, numberKeyAt(song, change.startSec));
              return (
                <tr key={`${change.id}.${change.stretch}`} aria-current={chosen === change}>
                  <td>{grid ? (barAt(grid, change.startSec)?.number ?? "–") : clockText(change.startSec)}</td>
                  <td>
                    <button
                      type="button"
                      className={controls.link}
                      onClick={() => {
                        select({ kind: "change", id: change.id, stretch: change.stretch });
                        axis.change((now) => keepInView(now, change.startSec, 80));
                      }}
                    >
                      {degree}
                      {rest} {letters}
                    </button>
                  </td>
                  <td>{markCell(change, nameOf)}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
    </FoldedList>
  );
}
