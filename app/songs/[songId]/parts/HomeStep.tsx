"use client";

import { useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { percentText, printed } from "@/lib/client/format/format";
import { inkHome, setHome } from "@/lib/document/commands/homes";
import { keyToWords, type Mode } from "@/lib/theory/key";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";

const TONICS = ["C", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B"];

/** Home as it stands, and another home where the ear was wrong. */
export function HomeStep() {
  const { opened, mayWrite, nameOf } = useDesk();
  const [isOpen, setIsOpen] = useState(false);
  const home = opened.song.homes[0];
  const { run } = opened.acts;

  function choose(tonic: string, mode: Mode) {
    run((ctx) => setHome(ctx, { startSec: home?.startSec ?? 0, tonic, mode }, home?.id));
  }

  return (
    <>
      {home
        ? `${printed(keyToWords(home))}, ${home.mark === "ink" ? `inked by ${nameOf(home.editedBy)}` : `in pencil, ${percentText(home.confidence ?? 0)}`}.`
        : "Not known yet."}
      <div className={styles.stepActs}>
        {mayWrite && home?.mark === "pencil" ? (
          <button
            type="button"
            className={controls.button}
            onClick={() => run((ctx) => inkHome(ctx, home.id))}
          >
            Ink home
          </button>
        ) : null}
        {mayWrite ? (
          <button
            type="button"
            className={controls.button}
            aria-expanded={isOpen}
            onClick={() => setIsOpen(!isOpen)}
          >
            {home ? "Change home" : "Set home"}
          </button>
        ) : null}
      </div>
      {mayWrite && isOpen ? (
        <div className={styles.homeFields}>
          <select
            className={controls.input}
            aria-label="Tonic"
            value={home?.tonic ?? ""}
            onChange={(event) => choose(event.target.value, home?.mode ?? "major")}
          >
            {home && TONICS.includes(home.tonic) ? null : (
              <option value={home?.tonic ?? ""}>{home?.tonic ?? "–"}</option>
            )}
            {TONICS.map((tonic) => (
              <option key={tonic} value={tonic}>
                {printed(tonic)}
              </option>
            ))}
          </select>
          <select
            className={controls.input}
            aria-label="Major or minor"
            value={home?.mode ?? "major"}
            onChange={(event) =>
              choose(home?.tonic ?? "C", event.target.value === "minor" ? "minor" : "major")
            }
          >
            <option value="major">major</option>
            <option value="minor">minor</option>
          </select>
        </div>
      ) : null}
    </>
  );
}
