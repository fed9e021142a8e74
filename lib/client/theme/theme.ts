import { storeText } from "../page/storedText";

/** The two looks of every page: "paper" is light, "stage" is dark. */
export type Theme = "paper" | "stage";

/** Where the choice is kept; public/theme.js reads the same key before the page is drawn. */
const KEY = "liftbook.theme";
const DARK = "(prefers-color-scheme: dark)";

const watchers = new Set<() => void>();

/** The theme on show: the person's choice, else what the system asks for. */
export function shownTheme(): Theme {
  const chosen = document.documentElement.dataset.theme;
  if (chosen === "paper" || chosen === "stage") return chosen;
  return window.matchMedia(DARK).matches ? "stage" : "paper";
}

/** Shows a theme and keeps the choice in this browser. */
export function chooseTheme(theme: Theme): void {
  document.documentElement.dataset.theme = theme;
  // A browser that keeps nothing still shows the choice until the page closes.
  storeText(KEY, theme);
  for (const watcher of watchers) watcher();
}

/** Calls back whenever the theme on show may have changed; returns the way to stop. */
export function watchTheme(onChange: () => void): () => void {
  const system = window.matchMedia(DARK);
  watchers.add(onChange);
  system.addEventListener("change", onChange);
  return () => {
    watchers.delete(onChange);
    system.removeEventListener("change", onChange);
  };
}
