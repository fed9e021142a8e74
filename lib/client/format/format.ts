/** Seconds as a player reads them, `m:ss` or `m:ss.cc`. */
export function clockText(timeSec: number, withHundredths = false): string {
  const hundredths = Math.max(
    0,
    withHundredths ? Math.floor(timeSec * 100 + 1e-6) : Math.floor(timeSec) * 100,
  );
  const minutes = Math.floor(hundredths / 6000);
  const rest = hundredths - minutes * 6000;
  const seconds = String(Math.floor(rest / 100)).padStart(2, "0");
  return `${minutes}:${seconds}${withHundredths ? `.${String(rest % 100).padStart(2, "0")}` : ""}`;
}

/** A certainty or fraction as whole per cent, `62 %`. */
export function percentText(fraction: number): string {
  return `${Math.round(fraction * 100)} %`;
}

/** How sure a guess is, 1 to 99 %: no guess is said to be certain, and none impossible. */
export function sureText(certainty: number): string {
  return certainty < 0.005 ? "under 1 %" : percentText(Math.min(0.99, certainty));
}

/** Bytes in the unit a person would use. */
export function bytesText(byteCount: number): string {
  if (byteCount < 1_000_000) return `${Math.max(1, Math.round(byteCount / 1000))} kB`;
  return `${(byteCount / 1_000_000).toFixed(byteCount < 10_000_000 ? 1 : 0)} MB`;
}

/** How far the record stands from A440, `+9 ¢`, with a real minus sign. */
export function centsText(cents: number): string {
  const whole = Math.round(cents);
  return `${whole < 0 ? "−" : "+"}${Math.abs(whole)} ¢`;
}

/** Accidentals as printed: `Eb` becomes `E♭`, `F#` becomes `F♯`. For note names and numbers, not for words. */
export function printed(text: string): string {
  return text
    .replace(/(?<=[A-G])b/g, "♭")
    .replace(/(?<![A-Za-z])b(?=\d)/g, "♭")
    .replaceAll("#", "♯")
    .replaceAll("-", "−");
}

const MOMENT = new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short" });

const DAY = new Intl.DateTimeFormat("en-GB", { dateStyle: "medium" });

/** The day in the reader's zone. */
export function dayText(epochMs: number): string {
  return DAY.format(epochMs);
}

/** Day and time in the reader's zone. */
export function momentText(epochMs: number): string {
  return MOMENT.format(epochMs);
}

const TIME = new Intl.DateTimeFormat("en-GB", { timeStyle: "short" });

/** The time of day in the reader's zone, `14:05`. */
export function timeText(epochMs: number): string {
  return TIME.format(epochMs);
}
