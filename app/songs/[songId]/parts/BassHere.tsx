"use client";

import { beginningWithin } from "@/lib/client/song/beginningWithin";
import { noteNumber } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";

/** More than these are not read as one line. */
const MOST = 16;

/** The bass line of a stretch in one line of numbers: a walk-up can be read off it. */
export function BassHere({ span }: { span: { startSec: number; endSec: number } }) {
  const { opened } = useDesk();
  const notes = beginningWithin(opened.song.bass, span);
  if (notes.length === 0) return null;
  const numbers = notes.slice(0, MOST).map(({ midi, startSec }) => noteNumber(midi, opened.song, startSec));
  return (
    <p>
      Bass <span className={styles.numbers}>{numbers.join(" ")}</span>
      {notes.length > MOST ? " …" : ""}
    </p>
  );
}
