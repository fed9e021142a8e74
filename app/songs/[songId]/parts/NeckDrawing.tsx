import type { RankedPlace } from "@/lib/places/rankPlaces";
import styles from "./bench.module.css";

const FRETS = 24;
const STRINGS = 10;
const WIDTH = 200;
const HEIGHT = 40;
/** Frets that bear a mark on most necks. */
const MARKED = [3, 5, 7, 9, 12, 15, 17, 19, 21, 24];

/** The neck from above, string 1 on top, the bar at its fret. Frets are drawn evenly: it is a map, not a ruler. */
export function NeckDrawing({ place }: { place: RankedPlace }) {
  const x = (fret: number) => 4 + (fret / FRETS) * (WIDTH - 8);
  const y = (string: number) => 4 + ((string - 1) / (STRINGS - 1)) * (HEIGHT - 8);
  const sounding = place.strings.map(y);
  return (
    <svg className={styles.neck} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      {Array.from({ length: STRINGS }, (_, index) => (
        <line
          key={index}
          className={styles.neckLine}
          x1={x(0)}
          x2={x(FRETS)}
          y1={y(index + 1)}
          y2={y(index + 1)}
        />
      ))}
      {Array.from({ length: FRETS + 1 }, (_, fret) => (
        <line
          key={fret}
          className={MARKED.includes(fret) ? styles.neckMark : styles.neckLine}
          x1={x(fret)}
          x2={x(fret)}
          y1={y(1)}
          y2={y(STRINGS)}
        />
      ))}
      <line className={styles.barAcross} x1={x(place.fret)} x2={x(place.fret)} y1="1" y2={HEIGHT - 1} />
      {sounding.map((cy) => (
        <circle key={cy} className={styles.neckDot} cx={x(place.fret)} cy={cy} r="3.5" />
      ))}
    </svg>
  );
}
