"use client";

import controls from "@/app/parts/controls.module.css";
import { askedActs } from "./askedActs";
import { useDesk } from "./DeskContext";

/** Begins a question about what is selected, or about the moment of the playhead; nothing for who may only listen. */
export function AskButton({ className = controls.button }: { className?: string | undefined }) {
  const desk = useDesk();
  if (!desk.mayWrite) return null;
  return (
    <button
      type="button"
      className={className}
      title="Ask about what is selected, or about this moment (Shift Q)"
      onClick={() => askedActs(desk).ask()}
    >
      Ask
    </button>
  );
}
