import styles from "./listening.module.css";

/** A slider with its name before it and what it stands at, in words, behind it. */
export function ListeningSlider({
  label,
  value,
  range: [least, most],
  words,
  onChange,
}: {
  label: string;
  value: number;
  range: readonly [number, number];
  words: string;
  onChange: (value: number) => void;
}) {
  return (
    <label className={styles.slider}>
      <span>{label}</span>
      <input
        type="range"
        min={least}
        max={most}
        value={Math.round(value)}
        aria-valuetext={words}
        onChange={({ target }) => onChange(Number(target.value))}
      />
      <span className={styles.figure} aria-hidden="true">
        {words}
      </span>
    </label>
  );
}
