import { type KeyboardEvent, useEffect, useRef } from "react";
import controls from "@/app/parts/controls.module.css";
import { printed } from "@/lib/client/format/format";
import { type HeldLocks, NOTHING_HELD } from "@/lib/client/places/HeldLocks";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import type { Copedent } from "@/lib/instrument/Copedent";
import type { Key } from "@/lib/theory/key";
import { midiToName } from "@/lib/theory/spelling";
import type { Midi } from "@/lib/units/quantities";
import { benchLocks } from "./benchLocks";
import styles from "./locks.module.css";

/** Everything that can be locked while notes are placed: strings, frets, pedals, the strings to be played. */
export function LockPanel({
  held,
  copedent,
  midis,
  event,
  homeKey,
}: {
  held: HeldLocks;
  copedent: Copedent;
  /** The notes on the bench. */
  midis: readonly Midi[];
  /** The event that is being placed, if it is written already. */
  event: ShownPart | null;
  homeKey: Key;
}) {
  const panel = useRef<HTMLFieldSetElement>(null);

  useEffect(() => {
    const cameFrom = document.activeElement;
    panel.current?.querySelector<HTMLElement>("select, input, button")?.focus();
    return () => {
      if (cameFrom instanceof HTMLElement && cameFrom.isConnected) cameFrom.focus();
    };
  }, []);

  function onKeyDown(pressed: KeyboardEvent) {
    // Keys of the lanes are not meant here; only the way back is.
    if (pressed.key === "Escape") {
      pressed.preventDefault();
      benchLocks.open(false);
    }
    pressed.stopPropagation();
    pressed.nativeEvent.stopPropagation();
  }

  const hold = (change: Partial<HeldLocks>) => benchLocks.hold({ ...held, ...change });
  const numbers = copedent.strings.map(({ number }) => number);
  const feet = held.changes ? "as they are" : (held.pedals ?? "free");
  const grip = held.grip ?? numbers;

  return (
    <fieldset ref={panel} className={styles.panel} aria-label="Locks" onKeyDown={onKeyDown}>
      <div className={styles.column}>
        {[...new Set(midis)].map((midi) => (
          <label key={midi} className={styles.field}>
            <span>{printed(midiToName(midi, homeKey))} on</span>
            <select
              className={controls.input}
              value={held.strings.find((each) => each.midi === midi)?.string ?? ""}
              onChange={({ target }) => {
                const others = held.strings.filter((each) => each.midi !== midi);
                const string = Number(target.value);
                hold({ strings: target.value === "" ? others : [...others, { midi, string }] });
              }}
            >
              <option value="">any string</option>
              {numbers.map((number) => (
                <option key={number} value={number}>
                  string {number}
                </option>
              ))}
            </select>
          </label>
        ))}
        <FretFields held={held} most={copedent.fretCount} here={event?.fret ?? null} hold={hold} />
      </div>
      <div className={styles.column}>
        {copedent.changes.length > 0 ? (
          <fieldset className={styles.choices}>
            <legend>Pedals</legend>
            <div className={controls.toggles}>
              {(["free", "up", "down", "as they are"] as const)
                .filter((state) => state !== "as they are" || event)
                .map((state) => (
                  <button
                    key={state}
                    type="button"
                    className={controls.toggle}
                    aria-pressed={feet === state}
                    onClick={() =>
                      hold({
                        pedals: state === "up" || state === "down" ? state : null,
                        changes: state === "as they are" ? (event?.changes ?? []) : null,
                      })
                    }
                  >
                    {state}
                  </button>
                ))}
            </div>
          </fieldset>
        ) : null}
        <fieldset className={styles.choices}>
          <legend>Strings to play</legend>
          {numbers.map((number) => (
            <button
              key={number}
              type="button"
              className={styles.string}
              aria-pressed={grip.includes(number)}
              aria-label={`String ${number}`}
              onClick={() => {
                const next = numbers.filter((each) => grip.includes(each) !== (each === number));
                hold({ grip: next.length === numbers.length || next.length === 0 ? null : next });
              }}
            >
              {number}
            </button>
          ))}
        </fieldset>
        {copedent.stoppedBy === "bar" && copedent.strings.length > 1 ? (
          <label className={styles.field}>
            <input
              type="checkbox"
              checked={held.slants}
              onChange={({ target }) => hold({ slants: target.checked })}
            />
            The bar may be slanted
          </label>
        ) : null}
        <div className={styles.acts}>
          <button type="button" className={controls.button} onClick={() => benchLocks.hold(NOTHING_HELD)}>
            Let all off
          </button>
          <button type="button" className={controls.button} onClick={() => benchLocks.open(false)}>
            Done
          </button>
        </div>
      </div>
    </fieldset>
  );
}

/** The frets from which to which the bar may go; one alone where both are the same. */
function FretFields({
  held,
  most,
  here,
  hold,
}: {
  held: HeldLocks;
  most: number;
  /** Of the event on the bench; null where there is none. */
  here: number | null;
  hold: (change: Partial<HeldLocks>) => void;
}) {
  const { frets } = held;
  function type(edge: "from" | "to", text: string) {
    const fret = Math.min(most, Math.max(0, Math.floor(Number(text))));
    if (text === "" || Number.isNaN(fret)) return hold({ frets: null });
    const other = edge === "from" ? Math.max(fret, frets?.to ?? most) : Math.min(fret, frets?.from ?? 0);
    hold({ frets: edge === "from" ? { from: fret, to: other } : { from: other, to: fret } });
  }
  return (
    <div className={styles.field}>
      <span>Frets</span>
      {(["from", "to"] as const).map((edge) => (
        <input
          key={edge}
          type="number"
          className={`${controls.input} ${styles.fret}`}
          aria-label={edge === "from" ? "From fret" : "To fret"}
          min={0}
          max={most}
          value={frets?.[edge] ?? ""}
          placeholder={edge === "from" ? "0" : String(most)}
          onChange={({ target }) => type(edge, target.value)}
        />
      ))}
      {here !== null ? (
        <button
          type="button"
          className={controls.button}
          onClick={() => hold({ frets: { from: here, to: here } })}
        >
          This one
        </button>
      ) : null}
    </div>
  );
}
