import { useId, useState } from "react";
import type { RankedPlace } from "@/lib/places/RankedPlace";
import styles from "./bench.module.css";
import { capital } from "./changeWords";
import { EaseGauge } from "./EaseGauge";
import { NeckDrawing } from "./NeckDrawing";
import { PlaceTerms } from "./PlaceTerms";
import { placeName } from "./placeFields";

/** One place on the neck: strings, fret, pedals, why, where it is, and how easy. */
export function PlaceCard({
  place,
  then,
  ease,
  isChosen,
  isTried,
  disabled,
  onChoose,
}: {
  place: RankedPlace;
  /** How it goes on while it rings, in words; null where it stays. */
  then: string | null;
  /** Against the easiest, 0 to 100. */
  ease: number;
  isChosen: boolean;
  /** Whether it is being tried by ear, unwritten. */
  isTried: boolean;
  disabled: boolean;
  onChoose: () => void;
}) {
  const [isOpen, open] = useState(false);
  const id = useId();
  return (
    <li className={`${styles.placeItem} ${isOpen ? styles.unfolded : ""}`}>
      <button
        type="button"
        className={`${styles.card} ${isChosen ? styles.chosen : ""} ${isTried ? styles.tried : ""}`}
        aria-current={isTried ? "true" : undefined}
        aria-pressed={isChosen}
        disabled={disabled}
        onClick={onChoose}
        title={place.reason}
        data-place
      >
        <strong className={styles.place}>
          {placeName(place)}
          {isTried ? <em className={styles.trying}>trying</em> : null}
        </strong>
        <span className={styles.reason} hidden={isOpen}>
          {then ? <strong>{capital(then)}. </strong> : null}
          {place.reason}
        </span>
        {isOpen ? null : <NeckDrawing places={[place]} />}
        <EaseGauge of="ease of reach" ease={ease} />
      </button>
      {isOpen ? (
        <div className={styles.termsOf}>
          <PlaceTerms id={id} terms={place.terms} cost={place.cost} />
        </div>
      ) : null}
      <button
        type="button"
        className={styles.why}
        aria-expanded={isOpen}
        aria-controls={isOpen ? id : undefined}
        aria-label={isOpen ? `less of ${placeName(place)}` : `why ${placeName(place)} is easy or hard`}
        onClick={() => open(!isOpen)}
      >
        {isOpen ? "less" : "why"}
      </button>
    </li>
  );
}
