"use client";

import controls from "@/app/parts/controls.module.css";
import { showStretch } from "@/lib/client/axis/timeAxis";
import { barsWords, sectionName } from "@/lib/client/song/sectionWords";
import { markCell } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { FoldedList } from "./FoldedList";
import { sectionActs } from "./sectionActs";

/** All sections as a plain list; "Ink all" settles the form of the song in one act. */
export function SectionList() {
  const desk = useDesk();
  const { opened, grid, select, axis, nameOf, mayWrite } = desk;
  const { sections } = opened.song;
  const acts = sectionActs(desk);
  if (sections.length === 0) return null;
  const pencilled = sections.filter((section) => section.mark === "pencil").length;
  return (
    <FoldedList summary="List of sections">
      {() => (
        <>
          <table>
            <thead>
              <tr>
                <th scope="col">Where</th>
                <th scope="col">Section</th>
                <th scope="col">Mark</th>
              </tr>
            </thead>
            <tbody>
              {sections.map((section) => (
                <tr key={`${section.id}.${section.stretch}`} aria-current={acts.section === section}>
                  <td>{barsWords(section, grid)}</td>
                  <td>
                    <button
                      type="button"
                      className={controls.link}
                      onClick={() => {
                        select({ kind: "section", id: section.id, stretch: section.stretch });
                        axis.change((now) => showStretch(now, section.startSec, section.endSec));
                      }}
                    >
                      {sectionName(section)}
                    </button>
                  </td>
                  <td>{markCell(section, nameOf)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          {mayWrite && pencilled > 0 ? (
            <p className={styles.acts}>
              <button type="button" className={controls.button} onClick={acts.inkAll}>
                Ink all {pencilled}
              </button>
            </p>
          ) : null}
        </>
      )}
    </FoldedList>
  );
}
