"use client";

import { type KeyboardEvent, useEffect, useRef } from "react";
import controls from "@/app/parts/controls.module.css";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { LISTENING_AT_FIRST } from "@/lib/document/records/ListeningSettings";
import { useDesk } from "./DeskContext";
import { ListeningBeside } from "./ListeningBeside";
import { ListeningFocus } from "./ListeningFocus";
import { ListeningLoop } from "./ListeningLoop";
import { ListeningPitch } from "./ListeningPitch";
import { ListeningTakes } from "./ListeningTakes";
import styles from "./listening.module.css";
import { listeningPanel } from "./listeningPanel";
import { memoryWords } from "./listeningWords";

/** Over the transport: all of how the record is listened to that is not wanted every moment. */
export function Listening() {
  const { player } = useDesk();
  const { memory } = usePlayerState(player);
  const panel = useRef<HTMLElement>(null);
  const words = memoryWords(memory);

  useEffect(() => {
    const cameFrom = document.activeElement;
    panel.current?.querySelector<HTMLElement>("button, input")?.focus();
    return () => {
      if (cameFrom instanceof HTMLElement && cameFrom.isConnected) cameFrom.focus();
    };
  }, []);

  function onKeyDown(event: KeyboardEvent) {
    if (event.key !== "Escape" && event.key !== "F8") return;
    event.preventDefault();
    event.stopPropagation();
    event.nativeEvent.stopPropagation();
    listeningPanel.open(false);
  }

  return (
    <section ref={panel} className={styles.panel} aria-label="Listening" onKeyDown={onKeyDown}>
      <div className={styles.head}>
        <h2>Listening</h2>
        {words ? (
          <p className={styles.memory} role="status">
            {words}
          </p>
        ) : null}
        <span className={styles.headActs}>
          <button
            type="button"
            className={controls.button}
            onClick={() => {
              player.setListening(LISTENING_AT_FIRST);
              player.setMuted(false);
              player.setClicking(false);
            }}
          >
            As recorded
          </button>
          <button
            type="button"
            className={controls.button}
            aria-label="Close Listening"
            onClick={() => listeningPanel.open(false)}
          >
            Close
          </button>
        </span>
      </div>
      <div className={styles.groups}>
        <ListeningPitch />
        <ListeningFocus />
        <ListeningLoop />
        <ListeningBeside />
        <ListeningTakes />
      </div>
    </section>
  );
}
