import controls from "@/app/parts/controls.module.css";
import styles from "./studies.module.css";

type Edge = "start" | "end";

/** Both ends of what is selected, or its start alone, each moved by one step. */
export function Ends({
  edges = ["start", "end"],
  step = "beat",
  moveEdge,
}: {
  edges?: readonly Edge[];
  /** What one step is, as it is read and said. */
  step?: string;
  moveEdge: (edge: Edge, direction: -1 | 1) => void;
}) {
  return (
    <div className={styles.ends}>
      {edges.map((edge) => (
        <fieldset key={edge}>
          <legend>{edge === "start" ? "Start" : "End"}</legend>
          <div className={controls.toggles}>
            {([-1, 1] as const).map((direction) => (
              <button
                key={direction}
                type="button"
                className={controls.toggle}
                aria-label={`Move its ${edge} a ${step} ${direction < 0 ? "earlier" : "later"}`}
                onClick={() => moveEdge(edge, direction)}
              >
                {direction < 0 ? `← ${step}` : `${step} →`}
              </button>
            ))}
          </div>
        </fieldset>
      ))}
    </div>
  );
}
