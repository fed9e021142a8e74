"use client";

import { capital, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { eventsActs } from "./eventsActs";
import { countWords } from "./eventsWords";
import { PedalToggles } from "./PedalToggles";
import { PlayIt } from "./PlayIt";
import { chosenEvents, selectedSpan } from "./selection";

/** Several chosen events of the part: how many, in which mark, from where to where. Acts on them stand under the lanes. */
export function EventsDetails() {
  const desk = useDesk();
  const { opened, selection, grid } = desk;
  const events = chosenEvents(opened.song, selection);
  const span = selectedSpan(opened.song, selection, grid);
  const pencilCount = events.filter(({ mark }) => mark === "pencil").length;
  return (
    <>
      <h2>{countWords(events.length)}</h2>
      {span && events.length > 0 ? <p>{capital(stretchWords(grid, span.startSec, span.endSec))}</p> : null}
      <p className={styles.marks}>
        {events.length === 0
          ? "None begins between the two corners."
          : `${events.length - pencilCount} in ink, ${pencilCount} in pencil; each keeps its mark in what is done here.`}
      </p>
      <p className={styles.marks}>
        Draw them along to move them, up or down for other strings, at an end to stretch them. On other
        strings they keep their notes where the neck has all of them there, else their frets. Every act on
        them stands under the lanes.
      </p>
      {desk.mayWritePart ? (
        <PedalToggles
          engaged={events[0]?.changes ?? []}
          disabled={events.length === 0}
          toggle={(id) => eventsActs(desk).letter(id)}
        />
      ) : null}
      <div className={styles.acts}>
        <PlayIt />
      </div>
    </>
  );
}
