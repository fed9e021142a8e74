import type { ComponentProps, ReactNode } from "react";
import { PartCells } from "./PartCells";
import { isTooClose, PartMarks } from "./PartMarks";
import styles from "./part.module.css";
import { stringPx } from "./partLayout";

/**
 * The events of a part over its strings, as cells, or as marks where they lie too close for these.
 * @param children what is drawn over them
 */
export function PartPicture({
  children,
  ...cells
}: ComponentProps<typeof PartCells> & { children?: ReactNode }) {
  const { part, strings, drawing } = cells;
  const { anchorSec, toSec, pxPerSec } = drawing;
  return (
    <svg
      className={styles.cells}
      width={Math.ceil((toSec - anchorSec) * pxPerSec)}
      height={strings.length * stringPx()}
      aria-hidden="true"
    >
      {isTooClose(part, drawing) ? (
        <PartMarks part={part} strings={strings} drawing={drawing} />
      ) : (
        <PartCells {...cells} />
      )}
      {children}
    </svg>
  );
}
