"use client";

import controls from "@/app/parts/controls.module.css";
import { placeWords } from "@/lib/client/axis/songGrid";
import { askedEvent } from "@/lib/client/fit/askedEvents";
import { printed } from "@/lib/client/format/format";
import type { Caret } from "@/lib/client/song/partTyping";
import { toggleChange } from "@/lib/client/song/partTyping";
import type { NearNotes } from "@/lib/fit/FitAnswer";
import { fretOn } from "@/lib/instrument/frets";
import type { Articulation } from "@/lib/notation/PartEvent";
import { soundingPitches } from "@/lib/notation/soundingPitches";
import { midiToName } from "@/lib/theory/spelling";
import { CoverNote } from "./CoverNote";
import { markWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { eventsActs } from "./eventsActs";
import { FitHere } from "./FitHere";
import { fitActs } from "./fitActs";
import { gripActs } from "./gripActs";
import { guessActs } from "./guessActs";
import { beginningAt } from "./guessPlaces";
import { withClip } from "./laterClip";
import { PedalToggles } from "./PedalToggles";
import { PlayIt } from "./PlayIt";
import { partActs } from "./partActs";
import { keyAt } from "./selection";
import { TechniqueToggles } from "./TechniqueToggles";

const BEGINS: readonly [Articulation, string][] = [
  ["pick", "picked"],
  ["slide", "slid"],
  ["press", "pressed"],
  ["release", "let off"],
  ["slidePress", "slid, pressed"],
  ["tie", "tied"],
];

/** The event at the caret, or an empty place to write one; every field by mouse as by key. */
export function EventDetails({ caret }: { caret: Caret }) {
  const desk = useDesk();
  const { opened, grid, copedent, nameOf } = desk;
  const acts = partActs(desk);
  const { event } = acts;
  const pitches = (event ? soundingPitches(copedent, event, opened.song.part) : []).flatMap((midi) =>
    midi === null ? [] : [printed(midiToName(midi, keyAt(opened.song, caret.timeSec)))],
  );
  const here = beginningAt(caret.timeSec);
  const isCovered = guessActs(desk).isCovered("places", here);
  const isOnIt = event?.strings.includes(caret.string) ?? false;
  const ownFret = event && fretOn(event, caret.string);
  const several = eventsActs(desk);
  const choose = () => event && several.choose([event.id], caret, caret);
  const set = (fields: Parameters<typeof acts.edit>[0]) => (event ? acts.edit(fields) : acts.add(fields));

  return (
    <>
      <h2>{event ? "Event" : isCovered ? "Covered place" : "Empty place"}</h2>
      <p role="status">
        String {caret.string}, {placeWords(grid, caret.timeSec) || `${caret.timeSec.toFixed(2)} s`}
        {event && !isOnIt ? ": nothing on this string" : null}
        {event && isOnIt ? `: ${ownFret}${event.changes.join("")}, ${pitches.join(" ")}` : null}
        {event || isCovered ? null : ": nothing"}
      </p>
      {event ? null : <CoverNote lane="places" within={here} />}
      {event ? <p className={styles.marks}>{markWords(event, nameOf)}</p> : null}
      {event ? (
        <FitHere<NearNotes>
          asked={askedEvent(event, opened.song.part, copedent)?.asked ?? null}
          heard={(near) => fitActs(desk).hear(near, event)}
          take={desk.mayWritePart ? (near) => fitActs(desk).toBench(near, event.startSec) : null}
        />
      ) : null}
      {desk.mayWritePart ? (
        <>
          <fieldset className={styles.form} aria-label="Part event">
            <label className={controls.field}>
              {acts.isFretOwn ? `Fret of string ${caret.string}` : "Fret"}
              <input
                className={controls.input}
                type="number"
                min={0}
                max={copedent.fretCount}
                value={ownFret ?? ""}
                placeholder="type"
                onChange={(change) => change.target.value !== "" && acts.fret(Number(change.target.value))}
              />
            </label>
            <label className={controls.field}>
              Begins
              <select
                className={controls.input}
                value={event?.articulation ?? "pick"}
                disabled={!event}
                onChange={(change) => set({ articulation: change.target.value as Articulation })}
              >
                {BEGINS.map(([value, words]) => (
                  <option key={value} value={value}>
                    {words}
                  </option>
                ))}
              </select>
            </label>
            <div className={styles.wide}>
              <span className={styles.legend}>Played</span>
              <div className={`${styles.pedals} ${styles.played}`}>
                <TechniqueToggles events={event ? [event] : []} toggle={several.technique} />
              </div>
            </div>
            <div className={styles.wide}>
              <span className={styles.legend}>Strings</span>
              <div className={styles.pedals}>
                {copedent.strings.map(({ number }) => {
                  const isOn = event?.strings.includes(number) ?? false;
                  const rest = (event?.strings ?? []).filter((string) => string !== number);
                  return (
                    <button
                      key={number}
                      type="button"
                      className={controls.toggle}
                      aria-pressed={isOn}
                      aria-label={`String ${number}`}
                      disabled={isOn && rest.length === 0}
                      onClick={() => set({ strings: isOn ? rest : [...rest, number].sort((a, b) => a - b) })}
                    >
                      {number}
                    </button>
                  );
                })}
              </div>
            </div>
            <PedalToggles
              engaged={event?.changes ?? []}
              disabled={!event}
              toggle={(id) => {
                const changes = toggleChange(copedent, event?.changes ?? [], id);
                if (changes) set({ changes });
              }}
            />
          </fieldset>
          {event ? (
            <p className={`${controls.small} ${styles.handling}`}>
              Draw it along for another time, up or down for another string: it keeps its note where the neck
              has it there, else its fret.
            </p>
          ) : null}
          <div className={styles.acts}>
            <PlayIt />
            <button
              type="button"
              className={controls.button}
              disabled={!event}
              onClick={() => acts.moveEdge("end", 1)}
            >
              Longer
            </button>
            <button
              type="button"
              className={controls.button}
              disabled={!event}
              onClick={() => acts.moveEdge("end", -1)}
            >
              Shorter
            </button>
            <button
              type="button"
              className={controls.button}
              disabled={!event}
              onClick={() => void gripActs(desk).transpose(-1)}
            >
              Half step down
            </button>
            <button
              type="button"
              className={controls.button}
              disabled={!event}
              onClick={() => void gripActs(desk).transpose(1)}
            >
              Half step up
            </button>
            <button
              type="button"
              className={controls.button}
              disabled={!event}
              title="Then tap others, or click them with Ctrl"
              onClick={choose}
            >
              Choose several
            </button>
            <button
              type="button"
              className={controls.button}
              onClick={() => withClip(desk, (clip) => clip.paste())}
            >
              Paste here
            </button>
            {event?.mark === "pencil" ? (
              <button type="button" className={controls.act} onClick={acts.ink}>
                Ink it
              </button>
            ) : null}
            <button type="button" className={controls.warn} disabled={!isOnIt} onClick={acts.rubOut}>
              Rub out
            </button>
          </div>
        </>
      ) : null}
    </>
  );
}
