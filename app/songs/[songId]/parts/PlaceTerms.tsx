import type { CostTerm } from "@/lib/places/Place";
import { TERM_WORDS } from "@/lib/places/termWords";
import styles from "./terms.module.css";

/** What makes up a place's cost: a line for each part, dearest first, those that speak for it last. */
export function PlaceTerms({ id, terms, cost }: { id: string; terms: readonly CostTerm[]; cost: number }) {
  const most = Math.max(1, ...terms.map((term) => Math.abs(term.cost)));
  return (
    <table id={id} className={styles.terms} aria-label="What makes it hard, and what speaks for it">
      <tbody>
        {[...terms]
          .sort((a, b) => b.cost - a.cost)
          .map((term) => (
            <tr key={term.name}>
              <th scope="row">{TERM_WORDS[term.name]}</th>
              <td className={styles.bar} aria-hidden="true">
                <i
                  className={term.cost < 0 ? styles.speaksFor : styles.against}
                  style={{ width: `${(100 * Math.abs(term.cost)) / most}%` }}
                />
              </td>
              <td className={styles.number}>{costText(term.cost)}</td>
            </tr>
          ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">in all</th>
          <td />
          <td className={styles.number}>{costText(cost)}</td>
        </tr>
      </tfoot>
    </table>
  );
}

/** To a tenth, with a sign that prints well. */
function costText(cost: number): string {
  const text = Math.abs(cost).toFixed(1);
  return cost < 0 && text !== "0.0" ? `−${text}` : text;
}
