"use client";

import { useSyncExternalStore } from "react";
import { chooseTheme, shownTheme, watchTheme } from "@/lib/client/theme/theme";
import controls from "./controls.module.css";

/** Paper by day, stage for a dim bandstand; the choice is kept in this browser. */
export function ThemeSwitch() {
  const theme = useSyncExternalStore(watchTheme, shownTheme, () => "paper" as const);
  const other = theme === "paper" ? "stage" : "paper";
  return (
    <button
      type="button"
      className={controls.plain}
      onClick={() => chooseTheme(other)}
      title={`Now ${theme}: change to ${other === "stage" ? "a dark page for the stage" : "a light page"}`}
    >
      {other === "stage" ? "Stage" : "Paper"}
      <span className="unseen"> theme</span>
    </button>
  );
}
