import { fretWords } from "@/lib/client/song/wayWords";
import { fretOn, settleFrets } from "@/lib/instrument/frets";
import type { RankedPlace } from "@/lib/places/RankedPlace";
import styles from "./bench.module.css";
import { capital } from "./changeWords";
import { EaseGauge } from "./EaseGauge";
import { NeckDrawing } from "./NeckDrawing";

/** One place on the neck: strings, fret, pedals, why, where it is, and how easy. */
export function PlaceCard({
  place,
  then,
  ease,
  isChosen,
  disabled,
  onChoose,
}: {
  place: RankedPlace;
  /** How it goes on while it rings, in words; null where it stays. */
  then: string | null;
  /** Against the easiest, 0 to 100. */
  ease: number;
  isChosen: boolean;
  disabled: boolean;
  onChoose: () => void;
}) {
  const strings = [...place.strings].sort((a, b) => a - b);
  const frets = fretWords(settleFrets(strings.map((string) => fretOn(place, string))));
  const changes = place.changes.join("+");
  return (
    <li>
      <button
        type="button"
        className={`${styles.card} ${isChosen ? styles.chosen : ""}`}
        aria-pressed={isChosen}
        disabled={disabled}
        onClick={onChoose}
        title={place.reason}
        data-place
      >
        <strong className={styles.place}>
          {strings.join("·")} fret {frets} {changes}
        </strong>
        <span className={styles.reason}>
          {then ? <strong>{capital(then)}. </strong> : null}
          {place.reason}
        </span>
        <NeckDrawing places={[place]} />
        <EaseGauge of="ease of reach" ease={ease} />
      </button>
    </li>
  );
}
