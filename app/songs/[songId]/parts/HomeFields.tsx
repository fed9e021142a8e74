"use client";

import controls from "@/app/parts/controls.module.css";
import { printed } from "@/lib/client/format/format";
import { setHome } from "@/lib/document/commands/homes";
import type { HomeRecord } from "@/lib/document/records/records";
import type { Mode } from "@/lib/theory/key";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";

const TONICS = ["C", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B"];

/** Any home by hand: tonic and mode. */
export function HomeFields({ home }: { home: HomeRecord | null }) {
  const { opened } = useDesk();

  function choose(tonic: string, mode: Mode) {
    opened.acts.run((ctx) => setHome(ctx, { startSec: home?.startSec ?? 0, tonic, mode }, home?.id));
  }

  return (
    <div className={styles.homeFields}>
      <select
        className={controls.input}
        aria-label="Tonic"
        value={home?.tonic ?? ""}
        onChange={(event) => choose(event.target.value, home?.mode ?? "major")}
      >
        {home && TONICS.includes(home.tonic) ? null : (
          <option value={home?.tonic ?? ""}>{home?.tonic ?? "–"}</option>
        )}
        {TONICS.map((tonic) => (
          <option key={tonic} value={tonic}>
            {printed(tonic)}
          </option>
        ))}
      </select>
      <select
        className={controls.input}
        aria-label="Major or minor"
        value={home?.mode ?? "major"}
        onChange={(event) => choose(home?.tonic ?? "C", event.target.value === "minor" ? "minor" : "major")}
      >
        <option value="major">major</option>
        <option value="minor">minor</option>
      </select>
    </div>
  );
}
