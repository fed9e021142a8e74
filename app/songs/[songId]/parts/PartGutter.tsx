"use client";

import { shortName } from "@/lib/client/copedents/copedentWords";
import type { Copedent } from "@/lib/instrument/Copedent";
import guitarStyles from "./guitar.module.css";
import { LaneHeading } from "./LaneHeading";
import styles from "./lanes.module.css";
import partStyles from "./part.module.css";
import { stringY } from "./partLayout";

/** Names of more signs are written smaller. */
const LONG_FROM = 8;

/** Left of a part: its name, its guitar, and the numbers of the strings. */
export function PartGutter({
  name,
  copedent,
  act,
  title,
  onAct,
}: {
  name: string;
  copedent: Copedent;
  /** What the guitar's name does when it is pressed, said after it. */
  act: string;
  title: string;
  onAct: () => void;
}) {
  const strings = copedent.strings.map(({ number }) => number);
  return (
    <div
      className={`${styles.gutter} ${partStyles.gutter} ${name.length > LONG_FROM ? partStyles.longName : ""}`}
    >
      <LaneHeading name={name} isOver />
      <button type="button" className={guitarStyles.name} title={title} onClick={onAct}>
        {shortName(copedent)}
        <span className="unseen">, {act}</span>
      </button>
      <ol className={partStyles.stringNumbers} aria-hidden="true">
        {strings.map((string) => (
          <li key={string} style={{ top: stringY(strings, string) }}>
            {string}
          </li>
        ))}
      </ol>
    </div>
  );
}
