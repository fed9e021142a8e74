import type { Placed } from "@/lib/places/Place";
import styles from "./bench.module.css";

const FRETS = 24;
const STRINGS = 10;
const WIDTH = 200;
const HEIGHT = 40;
/** Frets that bear a mark on most necks. */
const MARKED = [3, 5, 7, 9, 12, 15, 17, 19, 21, 24];

/**
 * The neck from above, string 1 on top, the bar at its fret, or at each where there are several. Frets are drawn
 * evenly: it is a map, not a ruler.
 */
export function NeckDrawing({ places }: { places: readonly Pick<Placed, "fret" | "strings">[] }) {
  const x = (fret: number) => 4 + (fret / FRETS) * (WIDTH - 8);
  const y = (string: number) => 4 + ((string - 1) / (STRINGS - 1)) * (HEIGHT - 8);
  const frets = [...new Set(places.map(({ fret }) => fret))];
  const dots = [
    ...new Set(places.flatMap(({ fret, strings }) => strings.map((string) => `${fret} ${string}`))),
  ];
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
      {frets.map((fret) => (
        <line key={fret} className={styles.barAcross} x1={x(fret)} x2={x(fret)} y1="1" y2={HEIGHT - 1} />
      ))}
      {dots.map((dot) => {
        const [fret = 0, string = 1] = dot.split(" ").map(Number);
        return <circle key={dot} className={styles.neckDot} cx={x(fret)} cy={y(string)} r="3.5" />;
      })}
    </svg>
  );
}
