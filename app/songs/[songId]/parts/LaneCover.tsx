"use client";

import type { MouseEvent } from "react";
import { drawnPx } from "@/lib/client/axis/timeAxis";
import { useDrawing } from "@/lib/client/axis/useAxis";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { LANE_WORDS } from "@/lib/lesson/comparisonWords";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import { capital, stretchWords } from "./changeWords";
import { useDesk } from "./DeskContext";
import styles from "./guess.module.css";
import { guessActs } from "./guessActs";
import { useKeptName } from "./useKeptName";

/** What its words take of a cover. */
const WORDS_PX = 210;
const SHORT_FROM_PX = 64;

/** Plain covers over a lane wherever it is kept covered for who looks. A click on one leads to a guess there. */
export function LaneCover({ lane }: { lane: GuessLane }) {
  const { axis, covered } = useDesk();
  const { fromSec, toSec } = useDrawing(axis);
  return covered.stretches[lane]
    .filter(({ startSec, endSec }) => endSec > fromSec && startSec < toSec)
    .map((stretch) => <Cover key={stretch.startSec} lane={lane} stretch={stretch} />);
}

function Cover({ lane, stretch }: { lane: GuessLane; stretch: HeardStretch }) {
  const desk = useDesk();
  const { axis, grid, player } = desk;
  const drawing = useDrawing(axis);
  const { anchorSec, fromSec, toSec, pxPerSec } = drawing;
  const endSec = Math.min(stretch.endSec, player.durationSec);
  const px = drawnPx(drawing);
  const toPx = (sec: number) => px(Math.min(toSec, Math.max(fromSec, sec)));
  const left = toPx(stretch.startSec);
  const width = Math.max(2, toPx(endSec) - left);
  const words = useKeptName(axis, left, Math.max(0, width - WORDS_PX));
  const name = capital(LANE_WORDS[lane]);

  function open(event: MouseEvent<HTMLElement>) {
    const fromLeftPx = event.clientX - event.currentTarget.getBoundingClientRect().left;
    // Enter on it has no place: the beginning then.
    const sec = event.detail > 0 ? anchorSec + (left + fromLeftPx) / pxPerSec : stretch.startSec;
    guessActs(desk).open(lane, Math.min(Math.max(sec, stretch.startSec), endSec));
  }

  return (
    <button
      type="button"
      className={styles.cover}
      style={{ left, width }}
      data-cover={lane}
      aria-label={`${name}, ${stretchWords(grid, stretch.startSec, endSec)}, covered: make your guess`}
      onClick={open}
    >
      <span ref={words} aria-hidden="true">
        {width >= WORDS_PX ? "covered: make your guess" : width >= SHORT_FROM_PX ? "covered" : ""}
      </span>
    </button>
  );
}
