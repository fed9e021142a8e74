"use client";

import { type ComponentType, type FunctionComponent, useEffect, useState } from "react";
import controls from "./controls.module.css";

/** A part of a page that is fetched apart from it. */
export interface LaterPart<Props extends object> {
  /** Shows it at once where it is here already; else once it has come, and meanwhile nothing. */
  Part: FunctionComponent<Props>;
  /** Fetches it ahead of time; what does not come is fetched when it is wanted. */
  fetch(): Promise<void>;
}

/**
 * Has a part of a page fetched by itself. React's own `lazy` draws nothing first, even where the part is here, and waits for
 * 0.3 s before it draws what came (its throttle of retries): too long for an answer to a key.
 * @param fetchPart imports it
 */
export function laterPart<Props extends object>(
  fetchPart: () => Promise<ComponentType<Props>>,
): LaterPart<Props> {
  let here: ComponentType<Props> | null = null;
  async function fetch() {
    here ??= await fetchPart();
  }
  // biome-ignore lint/correctness/noComponentHookFactories: called once for each part, where modules are read, as React's lazy is
  function Part(props: Props) {
    const [state, setState] = useState<"here" | "coming" | "missing">(here === null ? "coming" : "here");
    useEffect(() => {
      if (state !== "coming") return;
      let isShown = true;
      fetch().then(
        () => isShown && setState("here"),
        () => isShown && setState("missing"),
      );
      return () => {
        isShown = false;
      };
    }, [state]);
    if (here !== null) {
      const Here = here;
      return <Here {...props} />;
    }
    return state === "missing" ? (
      <p role="alert">
        This part of the page did not come. Everything written is kept. Check the connection, and{" "}
        <button type="button" className={controls.link} onClick={() => setState("coming")}>
          try again
        </button>
        .
      </p>
    ) : null;
  }
  return { Part, fetch };
}
