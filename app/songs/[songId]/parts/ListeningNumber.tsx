import { useState } from "react";
import controls from "@/app/parts/controls.module.css";
import styles from "./listening.module.css";

/** A number with its unit, typed or stepped. What is being typed stands until it is a number within its range. */
export function ListeningNumber({
  label,
  unit,
  value,
  range: [least, most],
  step,
  onChange,
}: {
  label: string;
  unit: string;
  value: number;
  range: readonly [number, number];
  step: number;
  onChange: (value: number) => void;
}) {
  const [typed, setTyped] = useState<string | null>(null);
  return (
    <label className={styles.number}>
      <span>{label}</span>
      <input
        className={controls.input}
        type="number"
        min={least}
        max={most}
        step={step}
        value={typed ?? value}
        onChange={({ target }) => {
          const wanted = target.valueAsNumber;
          const isTaken = wanted >= least && wanted <= most;
          setTyped(isTaken ? null : target.value);
          if (isTaken) onChange(wanted);
        }}
        onBlur={() => setTyped(null)}
      />
      <span>{unit}</span>
    </label>
  );
}
