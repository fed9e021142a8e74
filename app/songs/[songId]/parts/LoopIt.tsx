"use client";

import controls from "@/app/parts/controls.module.css";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { useDesk } from "./DeskContext";
import { selectedSpan } from "./selection";
import { loopSelection } from "./transportActs";

/** Loops the selection, or ends the loop that is on. */
export function LoopIt() {
  const desk = useDesk();
  const { loop } = usePlayerState(desk.player);
  const span = selectedSpan(desk.opened.song, desk.selection, desk.grid);
  const isOn =
    loop !== null && span !== null && loop.startSec === span.startSec && loop.endSec === span.endSec;
  return (
    <button
      type="button"
      className={controls.button}
      aria-pressed={isOn}
      disabled={span === null}
      onClick={() => loopSelection(desk)}
    >
      {isOn ? "Stop looping" : "Loop it"}
    </button>
  );
}
