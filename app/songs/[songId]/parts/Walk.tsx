"use client";

import { useEffect, useId, useSyncExternalStore } from "react";
import controls from "@/app/parts/controls.module.css";
import type { KeptWalk } from "@/lib/client/walk/KeptWalk";
import styles from "./walk.module.css";
import { WALK_STEPS } from "./walkSteps";

/** The first walk: a line over the lanes that says one thing at a time, while the page can be used as ever. */
export function Walk({ walk }: { walk: KeptWalk }) {
  const { at } = useSyncExternalStore(walk.watch, walk.now, walk.now);
  const titleId = useId();
  const step = at === null ? null : WALK_STEPS[at];
  const about = step?.about;
  useEffect(() => {
    if (!about) return;
    const place = document.querySelector(`section[aria-label="${about}"]`);
    place?.setAttribute("data-walk", "");
    place?.scrollIntoView({ block: "nearest" });
    return () => place?.removeAttribute("data-walk");
  }, [about]);
  if (at === null || !step) return null;
  const isLast = at === WALK_STEPS.length - 1;
  return (
    <section className={styles.walk} aria-labelledby={titleId}>
      <div className={styles.words} aria-live="polite">
        <h2 id={titleId}>
          {step.title}{" "}
          <span className={styles.count}>
            {at + 1} of {WALK_STEPS.length}
          </span>
        </h2>
        <p>{step.words}</p>
      </div>
      <div className={styles.acts}>
        <button type="button" className={controls.button} disabled={at === 0} onClick={() => walk.step(-1)}>
          Back
        </button>
        <button type="button" className={controls.act} onClick={() => walk.step(1)}>
          {isLast ? "Begin" : "Next"}
        </button>
        {isLast ? null : (
          <button type="button" className={controls.plain} onClick={walk.leave}>
            Leave the walk
          </button>
        )}
      </div>
    </section>
  );
}
