import { existsSync } from "node:fs";

const SYSTEM_BROWSERS = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];

/** Switches that keep a browser quiet on a machine without a display or an open network. */
export const BROWSER_SWITCHES = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--autoplay-policy=no-user-gesture-required",
];

/** A Chromium to test with: `CHROMIUM_PATH`, else one of the system, else the one inside an npm package. */
export async function findBrowser(): Promise<string> {
  const named = process.env.CHROMIUM_PATH;
  if (named) return named;
  const system = SYSTEM_BROWSERS.find((candidate) => existsSync(candidate));
  if (system) return system;
  const { default: packed } = await import("@sparticuz/chromium");
  return packed.executablePath();
}
