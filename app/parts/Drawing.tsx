import styles from "./Drawing.module.css";

/** A few invented bars as the song page shows them: two changes in ink, one in pencil, and the part below. */
export function Drawing() {
  const strings = Array.from({ length: 10 }, (_, index) => 104 + index * 17);
  return (
    <svg className={styles.drawing} viewBox="0 0 480 280" aria-hidden="true">
      {[40, 180, 320, 460].map((x) => (
        <line key={x} className={styles.bar} x1={x} x2={x} y1="8" y2="272" />
      ))}
      <rect className={styles.ink} x="42" y="22" width="136" height="44" rx="4" />
      <text className={styles.number} x="54" y="53">
        1
      </text>
      <text className={styles.letter} x="76" y="50">
        G
      </text>
      <rect className={styles.ink} x="182" y="22" width="136" height="44" rx="4" />
      <text className={styles.number} x="194" y="53">
        4
      </text>
      <text className={styles.letter} x="216" y="50">
        C
      </text>
      <rect className={styles.pencil} x="322" y="22" width="136" height="44" rx="4" />
      <text className={styles.number} x="334" y="53">
        5
      </text>
      <text className={styles.letter} x="356" y="50">
        D7
      </text>
      <text className={styles.sure} x="450" y="38">
        64 %
      </text>
      {strings.map((y, index) => (
        <g key={y}>
          <text className={styles.count} x="28" y={y + 4}>
            {index + 1}
          </text>
          <line className={styles.string} x1="40" x2="460" y1={y} y2={y} />
        </g>
      ))}
      {CELLS.map(([x, string, text]) => (
        <g key={`${x}-${string}`}>
          <rect
            className={styles.gap}
            x={x - 3}
            y={96 + string * 17 - 17}
            width={text.length * 9 + 6}
            height="16"
          />
          <text className={styles.cell} x={x} y={109 + string * 17 - 17}>
            {text}
          </text>
        </g>
      ))}
      <line className={styles.move} x1="216" x2="262" y1="172" y2="172" />
      <line className={styles.move} x1="216" x2="262" y1="189" y2="189" />
      <line className={styles.playhead} x1="198" x2="198" y1="8" y2="272" />
    </svg>
  );
}

const CELLS: readonly (readonly [number, number, string])[] = [
  [50, 4, "3"],
  [50, 5, "3"],
  [118, 6, "3"],
  [194, 5, "3A"],
  [194, 6, "3B"],
  [268, 5, "10A"],
  [268, 6, "10B"],
  [334, 5, "8A"],
  [400, 8, "8"],
];
