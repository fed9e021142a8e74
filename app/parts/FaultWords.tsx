import controls from "./controls.module.css";

/** What went wrong, told at once to who hears the page; nothing where all is well. */
export function FaultWords({ words }: { words: string | null | undefined }) {
  return words ? (
    <p className={controls.fault} role="alert">
      {words}
    </p>
  ) : null;
}
