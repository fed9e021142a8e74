"use client";

import { useEffect, useMemo, useRef } from "react";
import controls from "@/app/parts/controls.module.css";
import { placeWords } from "@/lib/client/axis/songGrid";
import { clockText, percentText } from "@/lib/client/format/format";
import { useAskBeforeLeaving } from "@/lib/client/page/useAskBeforeLeaving";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { inputLevel } from "@/lib/client/takes/inputLevel";
import type { TakeWish } from "@/lib/client/takes/takeStates";
import { useDesk } from "./DeskContext";
import { recordActs } from "./recordActs";
import styles from "./takes.module.css";
import { useTakeRecorder } from "./useTakeRecorder";

const STEP_WORDS = {
  off: "",
  asking: "Asking for the microphone",
  preparing: "Getting the record ready",
  countingIn: "Counting in",
  recording: "Recording",
  finishing: "Keeping the take",
} as const;
/** More bars than this are shown as one stretch. */
const MOST_BITS = 32;

/** Under the lanes while a take is recorded: what is going on, how far it is, and the two ways to end it. */
export function TakeBar() {
  const desk = useDesk();
  const { takes, player } = desk;
  const { step, wish, level, deviceName } = useTakeRecorder(desk);
  const { memory, speed } = usePlayerState(player);
  useAskBeforeLeaving(step === "recording");
  const recorder = takes.takes?.recorder;
  if (!recorder || !wish) return null;
  const isRecording = step === "recording" || step === "finishing";
  const coming = step === "preparing" && memory.kind === "coming" ? `, ${percentText(memory.fraction)}` : "";
  return (
    <section className={styles.bar} aria-label="Recording a take">
      <div className={styles.state}>
        <strong role="status">
          {isRecording ? "● " : ""}
          {STEP_WORDS[step]}
          {coming}
        </strong>
        <Place />
        {speed === 1 ? null : <span>at {percentText(speed)}</span>}
        {deviceName ? <Level level={level} name={deviceName} isOn={isRecording} /> : null}
      </div>
      <div className={styles.barActs}>
        <button
          type="button"
          className={controls.act}
          disabled={!isRecording}
          title="Stop and keep it (F10)"
          onClick={() => recorder.stop()}
        >
          Stop, keep it
        </button>
        <button
          type="button"
          className={controls.button}
          title="Drop it (Esc)"
          onClick={() => recordActs(desk).cancel()}
        >
          Drop it
        </button>
      </div>
      <Progress wish={wish} />
      <p className={styles.caution}>
        Use headphones, or the record is heard in the take. Only you hear it until you share it.
      </p>
    </section>
  );
}

/** Where one is, written straight into the page on every frame. */
function Place() {
  const { player, grid } = useDesk();
  const place = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const tell = (timeSec: number) => {
      const words = placeWords(grid, timeSec) || clockText(timeSec, true);
      if (place.current && place.current.textContent !== words) place.current.textContent = words;
    };
    tell(player.timeSec);
    return player.onTime(tell);
  }, [player, grid]);
  return <span className={styles.place} ref={place} />;
}

/** How loud it comes in, by a bar and a word. */
function Level({ level, name, isOn }: { level: number; name: string; isOn: boolean }) {
  const words = inputLevel(level);
  // Hearing goes by ratios: the bar shows the upper 48 dB.
  const filled = Math.min(1, Math.max(0, 1 + (20 * Math.log10(Math.max(1e-6, level))) / 48));
  return (
    <span className={styles.meter} title={name}>
      <span className={styles.level} aria-hidden="true">
        <span style={{ transform: `scaleX(${filled})` }} />
      </span>
      {isOn || words !== "silent" ? words : "listening"}
    </span>
  );
}

/** Bar by bar: each fills as it is played over. */
function Progress({ wish: { startSec, endSec } }: { wish: TakeWish }) {
  const { player, grid } = useDesk();
  const root = useRef<HTMLDivElement>(null);
  const bits = useMemo(() => {
    const inside = (grid?.bars ?? []).filter(
      (bar) => bar.startSec > startSec + 0.05 && bar.startSec < endSec - 0.05,
    );
    const edges = [startSec, ...(inside.length < MOST_BITS ? inside.map((bar) => bar.startSec) : []), endSec];
    return edges.slice(1).map((toSec, at) => ({ fromSec: edges[at]!, toSec }));
  }, [grid, startSec, endSec]);
  useEffect(() => {
    const tell = (timeSec: number) => {
      const shown = root.current;
      if (!shown) return;
      bits.forEach(({ fromSec, toSec }, at) => {
        const done = Math.min(1, Math.max(0, (timeSec - fromSec) / (toSec - fromSec)));
        const fill = shown.children[at]?.firstElementChild;
        if (fill instanceof HTMLElement) fill.style.transform = `scaleX(${done})`;
      });
    };
    tell(player.timeSec);
    return player.onTime(tell);
  }, [player, bits]);
  return (
    <div className={styles.progress} ref={root} aria-hidden="true">
      {bits.map(({ fromSec, toSec }) => (
        <div key={fromSec} className={styles.bit} style={{ flexGrow: toSec - fromSec }}>
          <div className={styles.done} />
        </div>
      ))}
    </div>
  );
}
