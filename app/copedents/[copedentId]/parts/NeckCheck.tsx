"use client";

import controls from "@/app/parts/controls.module.css";
import { printedChord } from "@/lib/client/copedents/printedChord";
import { printed } from "@/lib/client/format/format";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { engagedStage, toggleChange } from "@/lib/client/song/partTyping";
import { combinationChord } from "@/lib/instrument/combinationChord";
import { effectiveMidi } from "@/lib/instrument/effectivePitch";
import { openHome } from "@/lib/instrument/openHome";
import { C_MAJOR } from "@/lib/theory/key";
import { midiToName } from "@/lib/theory/spelling";
import { useCopedentDesk } from "./CopedentContext";
import { NeckStrings } from "./NeckStrings";
import styles from "./neck.module.css";

/** The neck at any fret, with any pedals and levers held: which notes come out, and what chord they are. */
export function NeckCheck() {
  const { copedent, engaged, engage, fret, setFret } = useCopedentDesk();
  const isReady = useIsReady();
  const home = openHome(copedent);
  const chord = combinationChord(copedent, engaged);
  const [name, ...others] = chord.names.map(({ label }) => printedChord(label, fret, home));
  const rows = copedent.strings.map(({ number, openMidi }) => {
    const plain = effectiveMidi(copedent, number, fret, []);
    const midi = effectiveMidi(copedent, number, fret, engaged);
    const nameOf = (pitch: number) => printed(midiToName(pitch, home ?? C_MAJOR));
    return {
      number,
      openNote: nameOf(openMidi),
      note: midi === null ? null : nameOf(midi),
      moved: midi === null || plain === null ? 0 : midi - plain,
    };
  });

  return (
    <section className={styles.check} aria-labelledby="neck-title">
      <h2 id="neck-title">On the neck</h2>
      <p className={styles.chord} role="status">
        {name ? (
          <>
            {name.degree ? (
              <strong>
                {name.degree}
                {name.quality ? <sup>{name.quality}</sup> : null}
              </strong>
            ) : null}
            <span>{name.letters}</span>
            {name.without ? <em>{name.without}</em> : null}
          </>
        ) : (
          <span className={controls.note}>no usual chord</span>
        )}
        {others.length > 0 ? <em>or {others.map(({ letters }) => letters).join(", ")}</em> : null}
      </p>
      <p className={controls.note}>
        {chord.strings.length > 0 ? `on strings ${chord.strings.join(" ")}` : "on no string"}, at fret {fret}
        {engaged.length > 0 ? ` with ${engaged.join(" + ")}` : ", nothing held"}
      </p>
      {copedent.changes.length > 0 ? (
        <fieldset className={styles.changes} aria-label="Held">
          {copedent.changes.map((change) => {
            const stage = engagedStage(change, engaged);
            return (
              <button
                key={change.id}
                type="button"
                className={controls.toggle}
                aria-pressed={stage !== undefined}
                aria-label={`${change.id}, ${change.label}`}
                title={change.label}
                disabled={!isReady}
                onClick={() => engage(toggleChange(copedent, engaged, change.id) ?? engaged)}
              >
                {stage ?? change.id}
              </button>
            );
          })}
        </fieldset>
      ) : null}
      <label className={styles.fret}>
        <span>Fret</span>
        <input
          type="range"
          min={0}
          max={copedent.fretCount}
          value={fret}
          disabled={!isReady}
          onChange={(event) => setFret(Number(event.target.value))}
        />
        <output>{fret}</output>
      </label>
      <NeckStrings rows={rows} fret={fret} fretCount={copedent.fretCount} />
    </section>
  );
}
