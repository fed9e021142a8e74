import type { Semitones } from "@/lib/units/quantities";

/** A move that was typed and cannot be read; the message is in words for people. */
export class MoveTextError extends Error {
  override readonly name = "MoveTextError";
  constructor(text: string) {
    super(
      `"${text}" is no move: write + or ++ for up, − or −− for down (a half step each), or a number as in −3.`,
    );
  }
}

const MOST_SIGNS = 2;

/** A move as players' charts write it: `+` a half step up, `++` a whole step, `−` and `−−` down, beyond these `+3`. */
export function moveToText(semitones: Semitones): string {
  if (semitones === 0) return "";
  const sign = semitones > 0 ? "+" : "−";
  const size = Math.abs(semitones);
  return size <= MOST_SIGNS ? sign.repeat(size) : `${sign}${size}`;
}

/**
 * The inverse of {@link moveToText}; hyphens count as minus signs, a number without a sign is up, nothing is no move.
 * @throws MoveTextError
 */
export function textToMove(text: string): Semitones {
  const plain = text.replaceAll(/[−–]/g, "-").replaceAll(/\s/g, "");
  if (plain === "") return 0;
  if (/^\++$/.test(plain)) return plain.length;
  if (/^-+$/.test(plain)) return -plain.length;
  if (/^[+-]?\d{1,2}$/.test(plain)) return Number(plain);
  throw new MoveTextError(text.trim());
}
