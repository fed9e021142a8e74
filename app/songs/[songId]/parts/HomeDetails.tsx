"use client";

import { printed } from "@/lib/client/format/format";
import type { HomeRecord } from "@/lib/document/records/records";
import type { KeyFit } from "@/lib/fit/FitAnswer";
import { keyToWords } from "@/lib/theory/key";
import { capital, markWords, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { Ends } from "./Ends";
import { FitHere } from "./FitHere";
import { fitActs } from "./fitActs";
import { HomeFields } from "./HomeFields";
import { HomeGuesses } from "./HomeGuesses";
import { homeActs } from "./homeActs";
import { SettleActs } from "./SettleActs";
import { selectedSpan } from "./selection";

/** The selected home: what the key is from a moment on. */
export function HomeDetails({ home }: { home: HomeRecord }) {
  const desk = useDesk();
  const { opened, selection, grid, nameOf, mayWrite, player } = desk;
  const acts = homeActs(desk);
  const span = selectedSpan(opened.song, selection, grid);
  return (
    <>
      <h2>Home</h2>
      <p className={styles.big}>
        <span>{printed(keyToWords(home))}</span>
      </p>
      {span ? <p>{capital(stretchWords(grid, span.startSec, span.endSec))}</p> : null}
      <p className={styles.marks}>{capital(markWords(home, nameOf))}</p>
      <FitHere<KeyFit["nearest"][number]>
        asked={
          span
            ? {
                passage: { startSec: span.startSec, endSec: Math.min(span.endSec, player.durationSec) },
                guess: { kind: "key", key: { tonic: home.tonic, mode: home.mode } },
              }
            : null
        }
        heard={({ key: { tonic, mode } }) =>
          fitActs(desk).hearChord(
            `${tonic}:${mode === "major" ? "maj" : "min"}`,
            span ?? { startSec: 0, endSec: 2 },
          )
        }
        take={mayWrite ? ({ key }) => acts.set(key) : null}
      />
      <HomeGuesses home={home} />
      {mayWrite ? <HomeFields home={home} /> : null}
      {mayWrite ? <Ends edges={["start"]} moveEdge={acts.moveEdge} /> : null}
      <SettleActs record={home} acts={acts} />
    </>
  );
}
