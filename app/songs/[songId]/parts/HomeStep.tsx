"use client";

import { useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { printed, sureText } from "@/lib/client/format/format";
import { inkHome } from "@/lib/document/commands/homes";
import { keyToWords } from "@/lib/theory/key";
import { CoverNote } from "./CoverNote";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { HomeFields } from "./HomeFields";
import { HomeGuesses } from "./HomeGuesses";

/** Home as it stands, and another home where the ear was wrong. */
export function HomeStep() {
  const { opened, mayWrite, nameOf, covered } = useDesk();
  const [isOpen, setIsOpen] = useState(false);
  const home = opened.song.homes[0] ?? null;
  const { run } = opened.acts;
  const isCovered = covered.stretches.home.length > 0;

  return (
    <>
      {home
        ? `${printed(keyToWords(home))}, ${home.mark === "ink" ? `inked by ${nameOf(home.editedBy)}` : `in pencil, ${sureText(home.confidence ?? 0)}`}.`
        : isCovered
          ? null
          : "Not known yet."}
      <CoverNote lane="home" within={null} />
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
        {mayWrite && !isCovered ? (
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
        <div className={styles.homeChoice}>
          {home ? <HomeGuesses home={home} /> : null}
          <HomeFields home={home} />
        </div>
      ) : null}
    </>
  );
}
