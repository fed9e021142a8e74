/** The keys as the page shows them; useDeskKeys answers to them. */
export const KEY_TABLE: readonly { name: string; keys: readonly (readonly [string, string])[] }[] = [
  {
    name: "Everywhere",
    keys: [
      ["Space", "play, pause"],
      ["L", "play the selection over and over, or stop looping"],
      [", .", "slower, faster; the pitch is kept"],
      ["+ -", "zoom in, out"],
      ["PgUp PgDn", "scroll the lanes back, on"],
      ["Home", "back to the start of the selection"],
      ["Ctrl Z", "take back your last act"],
      ["Ctrl Shift Z", "do it again"],
      ["Esc", "select nothing"],
      ["?", "these keys"],
    ],
  },
  {
    name: "Changes",
    keys: [
      ["← →", "the change before, after"],
      ["Enter", "ink it"],
      ["1–7 or A–G", "type another chord: 4, 2-, 1/3, G/B; F2 for an empty field"],
      ["S", "split at the playhead"],
      ["M", "merge with the next"],
      ["[ ]", "move its start by a beat"],
      ["{ }", "move its end by a beat"],
      ["Backspace", "rub out"],
      ["P or ↓", "go to the part"],
    ],
  },
  {
    name: "Part",
    keys: [
      ["← →", "a beat back, on; with Alt a quarter of one"],
      ["↑ ↓", "string above, below"],
      ["0–9", "fret; two digits in a row make one number"],
      ["A B C F E …", "pedal or lever on, off; D twice goes all the way"],
      ["/", "slide into it with the bar"],
      [">", "press or let off while it rings"],
      ["Shift ← →", "shorter, longer"],
      ["[ ]", "move its start"],
      ["N", "next place on the bench"],
      ["Enter", "ink it"],
      ["Backspace", "rub out"],
      ["Esc, then ←", "back to the changes"],
    ],
  },
];
