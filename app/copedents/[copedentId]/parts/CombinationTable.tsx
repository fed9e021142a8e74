"use client";

import { useDeferredValue, useMemo, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { plainCombinations } from "@/lib/client/copedents/plainCombinations";
import { type PrintedChord, printedChord } from "@/lib/client/copedents/printedChord";
import { useIsReady } from "@/lib/client/page/useIsReady";
import {
  type CombinationChord,
  chordStrings,
  everyCombinationChord,
} from "@/lib/instrument/combinationChord";
import { openHome } from "@/lib/instrument/openHome";
import { sameMembers } from "@/lib/instrument/sameMembers";
import { useCopedentDesk } from "./CopedentContext";
import styles from "./combinations.module.css";

/** Every combination of pedals and levers that feet and knees can hold, with the chord it gives. */
export function CombinationTable() {
  const { copedent: now, engaged, engage } = useCopedentDesk();
  const isReady = useIsReady();
  // Typing comes first: hundreds of chords are named after it.
  const copedent = useDeferredValue(now);
  const [chosen, choose] = useState<readonly number[] | null>(null);
  const [isAllShown, showAll] = useState(false);
  const numbers = copedent.strings.map(({ number }) => number);
  const usual = useMemo(() => chordStrings(copedent), [copedent]);
  const strings = useMemo(
    () => (chosen ?? usual).filter((string) => copedent.strings.some(({ number }) => number === string)),
    [chosen, usual, copedent],
  );
  const all = useMemo(() => everyCombinationChord(copedent, strings), [copedent, strings]);
  const plain = useMemo(() => plainCombinations(copedent, all), [copedent, all]);
  const shown = isAllShown ? all : plain;
  const home = openHome(copedent);

  function toggle(string: number): void {
    const next = strings.includes(string)
      ? strings.filter((each) => each !== string)
      : [...strings, string].sort((a, b) => a - b);
    if (next.length > 0) choose(next);
  }

  return (
    <section className={styles.combinations} aria-labelledby="combinations-title">
      <h2 id="combinations-title">What each combination gives</h2>
      <p className={controls.note}>
        The chord at fret 0, and its number against the open strings:{" "}
        {"4 is the 4 chord at whatever fret the open strings are home."}
      </p>
      <fieldset className={styles.on} aria-label="On strings">
        <span aria-hidden="true">on strings</span>
        <span className={`${controls.toggles} ${styles.strings}`}>
          {numbers.map((number) => (
            <button
              key={number}
              type="button"
              className={controls.toggle}
              aria-pressed={strings.includes(number)}
              aria-label={`String ${number}`}
              disabled={!isReady}
              onClick={() => toggle(number)}
            >
              {number}
            </button>
          ))}
        </span>
        {chosen ? (
          <button type="button" className={controls.plain} onClick={() => choose(null)}>
            The usual ones
          </button>
        ) : null}
      </fieldset>
      <ul className={styles.cards}>
        {shown.map((each) => (
          <li key={each.changes.join(" ")}>
            <CombinationCard
              chord={each}
              names={each.names.map(({ label }) => printedChord(label, 0, home))}
              isHeld={sameMembers(each.changes, engaged)}
              disabled={!isReady}
              onHold={() => engage(each.changes)}
            />
          </li>
        ))}
      </ul>
      {all.length > plain.length ? (
        <button
          type="button"
          className={controls.button}
          disabled={!isReady}
          onClick={() => showAll(!isAllShown)}
        >
          {isAllShown ? "Show only the plain ones" : `Show all ${all.length} that feet and knees can hold`}
        </button>
      ) : null}
    </section>
  );
}

function CombinationCard({
  chord,
  names,
  isHeld,
  disabled,
  onHold,
}: {
  chord: CombinationChord;
  names: readonly PrintedChord[];
  isHeld: boolean;
  disabled: boolean;
  onHold: () => void;
}) {
  const [first, ...others] = names;
  const notes = [
    first?.without ?? "",
    others.length > 0 ? `or ${others.map(nameWords).join(", ")}` : "",
    chord.unsureStrings.length > 0 ? `no sure pitch on ${chord.unsureStrings.join(" ")}` : "",
  ].filter((note) => note !== "");
  return (
    <button
      type="button"
      className={styles.card}
      aria-pressed={isHeld}
      title="Hold it on the neck above"
      disabled={disabled}
      onClick={onHold}
    >
      <span className={styles.held}>{chord.changes.length === 0 ? "open" : chord.changes.join(" + ")}</span>
      {first?.degree ? (
        <span className={styles.number}>
          {first.degree}
          {first.quality ? <sup>{first.quality}</sup> : null}
        </span>
      ) : null}
      <span className={styles.letters}>{first?.letters ?? "no usual chord"}</span>
      <span className={styles.others}>{notes.join("; ")}</span>
    </button>
  );
}

function nameWords({ letters, without }: PrintedChord): string {
  return without ? `${letters} (${without})` : letters;
}
