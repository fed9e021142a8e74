import type { ReactNode } from "react";
import controls from "@/app/parts/controls.module.css";
import type { Pages } from "./usePages";

/** The ways to the page before and after. */
export function PageTurns({
  pages: { page, count, turnTo },
  children,
}: {
  pages: Pages<unknown>;
  /** What stands between them. */
  children?: ReactNode;
}) {
  return (
    <>
      <button
        type="button"
        className={controls.button}
        disabled={page === 0}
        onClick={() => turnTo(page - 1)}
      >
        Earlier
      </button>
      {children}
      <button
        type="button"
        className={controls.button}
        disabled={page === count - 1}
        onClick={() => turnTo(page + 1)}
      >
        Later
      </button>
    </>
  );
}
