"use client";

import { type ReactNode, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import type { SongPart } from "@/lib/document/read/SongSnapshot";
import { useDesk } from "./DeskContext";
import { eventsActs } from "./eventsActs";
import styles from "./eventsBar.module.css";
import { countWords } from "./eventsWords";
import { gripActs } from "./gripActs";
import { withClip } from "./laterClip";
import { MoveSheet } from "./MoveSheet";
import { TechniqueToggles } from "./TechniqueToggles";

/** Longer names of parts would push the other buttons away. */
const LONG_FROM = 16;

/** Under the lanes, while events of the part are chosen: every act on them, for mouse and thumb. */
export function EventsBar() {
  const desk = useDesk();
  const acts = eventsActs(desk);
  const [isMoving, setMoving] = useState(false);
  if (!acts.isMany) return null;
  const grips = gripActs(desk);
  const { events } = acts;
  const has = events.length > 0;
  const others = desk.parts.list.filter(({ id }) => id !== desk.parts.atHand.id);
  const only = others.length === 1 ? others[0] : undefined;
  const name = desk.parts.nameOf(only?.id);
  const move = (part: SongPart) => void withClip(desk, (clip) => clip.moveTo(part));
  const button = (words: string, act: () => void, label?: string, isOn = has) => (
    <button
      type="button"
      className={controls.button}
      disabled={!isOn}
      aria-label={label}
      title={label}
      onClick={act}
    >
      {words}
    </button>
  );
  return (
    <section className={styles.bar} aria-label="Chosen events">
      <p className={styles.count} role="status">
        {countWords(events.length)}
      </p>
      <div className={styles.acts}>
        <Group>
          {button("Copy", () => withClip(desk, (clip) => clip.copy()))}
          {desk.mayWritePart ? button("Cut", () => withClip(desk, (clip) => clip.cut())) : null}
          {desk.mayWritePart
            ? button(
                "Paste",
                () => withClip(desk, (clip) => clip.paste()),
                "Paste where the caret stands",
                true,
              )
            : null}
        </Group>
        {desk.mayWritePart ? (
          <>
            <Group>
              {button("◂", () => acts.step(-1), "Move them back by one step of the snap")}
              {button("▸", () => acts.step(1), "Move them on by one step of the snap")}
              {button("Shorter", () => acts.stretch(-1))}
              {button("Longer", () => acts.stretch(1))}
              {button("To the grid", acts.quantise, "Draw their beginnings and ends to the grid")}
            </Group>
            <Group>
              {button("−½", () => void grips.transpose(-1), "A half step down")}
              {button("+½", () => void grips.transpose(1), "A half step up")}
              {button("−8", () => void grips.transpose(-12), "An octave down")}
              {button("+8", () => void grips.transpose(12), "An octave up")}
              {button("Other grip", () => void grips.next(), "The next place where they sound the same")}
            </Group>
            <Group>
              {button("Slide", () => acts.articulate("slide"))}
              {button("Press", () => acts.articulate("press"), "Pressed or let off while it rings")}
              {button("Tie", () => acts.articulate("tie"), "Tied: rings on, not picked again")}
              <TechniqueToggles events={events} toggle={acts.technique} className={styles.toggle} />
            </Group>
            {others.length > 0 ? (
              <Group>
                {only
                  ? button(
                      `To ${name.length > LONG_FROM ? "the other part" : name}`,
                      () => move(only),
                      `Move them to ${name}`,
                    )
                  : button("To part…", () => setMoving(true), "Move them to another part")}
              </Group>
            ) : null}
            <Group>
              {button(
                "Ink them",
                acts.ink,
                undefined,
                events.some(({ mark }) => mark === "pencil"),
              )}
              <button type="button" className={controls.warn} disabled={!has} onClick={acts.rubOut}>
                Rub out
              </button>
            </Group>
          </>
        ) : null}
      </div>
      <button type="button" className={controls.plain} onClick={acts.leave}>
        Done
      </button>
      {isMoving ? (
        <MoveSheet
          parts={others}
          onChosen={(part) => {
            setMoving(false);
            move(part);
          }}
          onClose={() => setMoving(false)}
        />
      ) : null}
    </section>
  );
}

function Group({ children }: { children: ReactNode }) {
  return <div className={styles.group}>{children}</div>;
}
