"use client";

import controls from "@/app/parts/controls.module.css";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { LANE_WORDS } from "@/lib/lesson/comparisonWords";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import { useDesk } from "./DeskContext";
import styles from "./guess.module.css";
import { guessActs } from "./guessActs";

/**
 * Where a step would tell what is covered: that it is, and the way to a guess; nothing where it is not.
 * @param within null for the whole song
 */
export function CoverNote({ lane, within }: { lane: GuessLane; within: HeardStretch | null }) {
  const desk = useDesk();
  const [first] = desk.covered.stretches[lane].filter(
    ({ startSec, endSec }) => !within || (endSec > within.startSec + 0.05 && startSec < within.endSec - 0.05),
  );
  if (!first) return null;
  const atSec = Math.max(first.startSec, within?.startSec ?? 0);
  return (
    <span className={styles.note}>
      Covered: make your guess.
      <button
        type="button"
        className={controls.button}
        aria-label={`Guess ${lane === "home" ? "" : "the "}${LANE_WORDS[lane]}`}
        onClick={() => guessActs(desk).open(lane, atSec)}
      >
        Guess
      </button>
    </span>
  );
}
