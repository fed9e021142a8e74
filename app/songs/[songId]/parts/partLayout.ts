import { textScale } from "@/lib/client/page/textScale";

const STRING_PX = 20;
const LETTER_PX = 8.4;

/** Height of one string's row in the part lane, in CSS pixels; as large as the text in it. */
export function stringPx(): number {
  return STRING_PX * textScale();
}

/** Width of one letter of the mono face at the size of a cell, in CSS pixels. */
export function letterPx(): number {
  return LETTER_PX * textScale();
}

/** Where the flag of whoever holds an event stands, in pixels from the top of the lane; at the top where it is not here. */
export function topOfEvent(
  strings: readonly number[],
  events: readonly { id: string; strings: number[] }[],
  id: string | null,
): number {
  const event = events.find((each) => each.id === id);
  return event ? stringY(strings, Math.min(...event.strings)) - stringPx() - 8 : 0;
}

/** Where a string's line lies in the lane, in pixels from its top. */
export function stringY(strings: readonly number[], string: number): number {
  return Math.max(0, strings.indexOf(string)) * stringPx() + stringPx() / 2;
}
