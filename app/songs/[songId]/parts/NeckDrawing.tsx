"use client";

import type { Copedent } from "@/lib/instrument/Copedent";
import { barFretAt, fretOn } from "@/lib/instrument/frets";
import { FINGERS } from "@/lib/places/fingers/Fingering";
import type { Placed } from "@/lib/places/Place";
import styles from "./bench.module.css";
import { useDesk } from "./DeskContext";

const WIDTH = 200;
const HEIGHT = 40;
const EDGE = 4;
/** How far the bar reaches beyond the outer strings. */
const BAR_BEYOND = 3;
/** Frets that bear a mark on most necks. */
const MARKED = [3, 5, 7, 9, 12, 15, 17, 19, 21, 24];

type Drawn = Pick<Placed, "fret" | "frets" | "strings">;

/**
 * The neck from above, string 1 on top, the bar at its fret, slanted or straight, or at each where there are several;
 * fingers are dots alone, on an open string a ring. Frets are drawn evenly: it is a map, not a ruler.
 */
export function NeckDrawing({ places }: { places: readonly Drawn[] }) {
  const { copedent } = useDesk();
  const { strings, fretCount } = copedent;
  const numbers = strings.map(({ number }) => number);
  const x = (fret: number) => EDGE + (fret / fretCount) * (WIDTH - 2 * EDGE);
  const y = (string: number) =>
    EDGE + (numbers.indexOf(string) / Math.max(1, numbers.length - 1)) * (HEIGHT - 2 * EDGE);
  const known = places.map((place) => ({
    place,
    on: place.strings.filter((each) => numbers.includes(each)),
  }));
  const dots = new Set(
    known.flatMap(({ place, on }) => on.map((string) => `${fretOn(place, string)} ${string}`)),
  );
  const barres = copedent.stoppedBy === "fingers" ? known.flatMap(({ place }) => barreLine(place, x, y)) : [];
  const bars =
    copedent.stoppedBy === "bar" ? known.flatMap(({ place }) => barLine(place, copedent, x, y)) : [];
  return (
    <svg className={styles.neck} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      {strings.map(({ number, beginsAtFret = 0 }) => (
        <line
          key={number}
          className={styles.neckLine}
          x1={x(beginsAtFret)}
          x2={x(fretCount)}
          y1={y(number)}
          y2={y(number)}
        />
      ))}
      {Array.from({ length: fretCount + 1 }, (_, fret) => (
        <line
          key={fret}
          className={MARKED.includes(fret) ? styles.neckMark : styles.neckLine}
          x1={x(fret)}
          x2={x(fret)}
          y1={EDGE}
          y2={HEIGHT - EDGE}
        />
      ))}
      {[...new Set([...bars, ...barres])].map((path) => (
        <path key={path} className={styles.barAcross} d={path} />
      ))}
      {[...dots].map((dot) => {
        const [fret = 0, string = 1] = dot.split(" ").map(Number);
        const isOpen = fret === 0 && copedent.stoppedBy === "fingers";
        const start = strings.find(({ number }) => number === string)?.beginsAtFret ?? 0;
        return (
          <circle
            key={dot}
            className={isOpen ? styles.neckRing : styles.neckDot}
            cx={x(isOpen ? start : fret)}
            cy={y(string)}
            r={isOpen ? 2.5 : 3.5}
          />
        );
      })}
    </svg>
  );
}

/** A straight bar over the whole neck; a slanted one over its strings and a little beyond. */
function barLine(
  place: Drawn,
  { strings }: Copedent,
  x: (fret: number) => number,
  y: (string: number) => number,
): string[] {
  if (!place.frets) return [`M${x(place.fret)} 1V${HEIGHT - 1}`];
  const under = strings.map(({ number }) => number).filter((each) => place.strings.includes(each));
  const [first, last] = [under[0], under.at(-1)];
  if (first === undefined || last === undefined || first === last) return [];
  const [x1, y1] = [x(barFretAt(place, first)), y(first)];
  const [x2, y2] = [x(barFretAt(place, last)), y(last)];
  const beyond = BAR_BEYOND / Math.abs(y2 - y1);
  const [dx, dy] = [(x2 - x1) * beyond, (y2 - y1) * beyond];
  return [`M${x1 - dx} ${y1 - dy}L${x2 + dx} ${y2 + dy}`];
}

/** The finger that lies across the strings at the lowest fret, where there are more stops than fingers. */
function barreLine(place: Drawn, x: (fret: number) => number, y: (string: number) => number): string[] {
  const stops = place.strings.filter((string) => fretOn(place, string) > 0);
  if (stops.length <= FINGERS) return [];
  const heights = stops.filter((string) => fretOn(place, string) === place.fret).map(y);
  return [`M${x(place.fret)} ${Math.min(...heights)}V${Math.max(...heights)}`];
}
