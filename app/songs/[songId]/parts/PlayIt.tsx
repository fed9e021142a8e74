"use client";

import controls from "@/app/parts/controls.module.css";
import { useDesk } from "./DeskContext";
import { LoopIt } from "./LoopIt";
import { listeningActs } from "./listeningActs";

/** Ways to hear the record where something is selected: over and over, or from its start on. */
export function PlayIt() {
  const desk = useDesk();
  return (
    <>
      <LoopIt />
      <button type="button" className={controls.button} onClick={listeningActs(desk).playFromSelection}>
        Play from here
      </button>
    </>
  );
}
