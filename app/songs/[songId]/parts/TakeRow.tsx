"use client";

import { useEffect, useMemo, useRef, useState } from "react";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { momentText, percentText } from "@/lib/client/format/format";
import type { RecordPeaks } from "@/lib/client/record/RecordPeaks";
import { type LaidSound, useWaveform } from "@/lib/client/record/useWaveform";
import type { ListedTake } from "@/lib/client/takes/takeStates";
import { secondOfRecord } from "@/lib/contracts/takes";
import { stretchWords } from "./changeWords";
import { useDesk } from "./DeskContext";
import { TakeMarks } from "./TakeMarks";
import { takeActs } from "./takeActs";
import styles from "./takes.module.css";
import { unsentWords } from "./unsentWords";
import { useTakeListening } from "./useTakeRecorder";

/** One take on the axis: its sound where it was played, and under each stroke what came of it. */
export function TakeRow({ take, row }: { take: ListedTake; row: number }) {
  const desk = useDesk();
  const { axis, takes, selection, grid } = desk;
  const { anchorSec, pxPerSec } = useDrawing(axis);
  const canvas = useRef<HTMLCanvasElement>(null);
  const peaks = useTakePeaks(take);
  const laid = useMemo(() => laidOn(take), [take]);
  useWaveform(canvas, axis, peaks, laid);
  const { takeId } = useTakeListening(desk);
  const isSelected = selection?.kind === "take" && selection.id === take.id;
  const box = useRef<HTMLButtonElement>(null);
  // The lane is the last: whoever has just recorded sees what has come of it.
  useEffect(() => {
    if (isSelected) box.current?.scrollIntoView({ block: "nearest", inline: "nearest" });
  }, [isSelected]);
  const left = Math.round((take.startSec - anchorSec) * pxPerSec);
  const width = Math.max(6, Math.round((take.endSec - take.startSec) * pxPerSec));
  const acts = takeActs(desk);
  const isHeard = takes.takes !== null && takeId === take.id;
  const line = [
    `Take by ${take.isOwn ? "you" : take.ownerName}, ${momentText(take.madeAtMs)}`,
    stretchWords(grid, take.startSec, take.endSec),
    `at ${percentText(take.speed)}`,
    take.isOwn ? (take.isShared ? "shared" : "private") : "shared with you",
    take.unsent ? unsentWords(take.unsent) : null,
    isHeard ? "being heard" : isSelected ? "press again to hear it" : null,
  ].filter(Boolean);
  return (
    <div className={styles.row} style={{ top: `calc(${row} * var(--take))` }}>
      <div className={styles.wave}>
        <canvas className={`${styles.canvas} ${take.isOwn ? "" : styles.theirs}`} ref={canvas} />
      </div>
      <TakeMarks take={take} />
      <button
        ref={box}
        type="button"
        className={`${styles.box} ${isSelected ? styles.selected : ""} ${take.unsent ? styles.unsent : ""}`}
        style={{ left, width }}
        aria-pressed={isSelected}
        aria-label={line.join(", ")}
        title={line.join(", ")}
        onClick={() => {
          if (isSelected) acts.hear("both");
          else acts.choose(take);
        }}
      >
        {isHeard ? <span className={styles.heard}>heard now</span> : null}
        {take.unsent ? <span className={styles.tag}>{unsentWords(take.unsent)}</span> : null}
      </button>
    </div>
  );
}

function laidOn(take: ListedTake): LaidSound {
  return {
    fromSec: secondOfRecord(take, 0),
    toSec: secondOfRecord(take, take.durationSec),
    speed: take.speed,
  };
}

function useTakePeaks({ id }: ListedTake): RecordPeaks | null {
  const { takes } = useDesk().takes;
  const [peaks, setPeaks] = useState<RecordPeaks | null>(null);
  useEffect(() => {
    let isLeft = false;
    void takes?.sounds.peaksOf(id).then((opened) => !isLeft && setPeaks(opened));
    return () => {
      isLeft = true;
    };
  }, [takes, id]);
  return peaks;
}
