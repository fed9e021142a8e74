import type { Selection } from "./selection";

/** What the keys of a group are for: what is selected, nothing, or beats being tapped. */
export type KeyPlace = NonNullable<Selection>["kind"] | "nothing" | "tapping";

export interface KeyGroup {
  name: string;
  /** Where its keys have this meaning; absent where they have it everywhere. */
  places?: readonly KeyPlace[];
  /** What to do first where they have not. */
  first?: string;
  /**
   * Keys and what they do. Where a row has several keys, braces say what each of them does, in their order:
   * `["← →", "the note {before|after}"]`. The search of acts (deskActs.ts) is made of the same rows, and presses their keys.
   */
  keys: readonly (readonly [string, string])[];
}

/** All acts that have a key, as the page shows them; useDeskKeys answers to them. */
export const KEY_TABLE: readonly KeyGroup[] = [
  {
    name: "Everywhere",
    keys: [
      ["Space", "play, pause"],
      ["L", "play the selection over and over, or stop looping"],
      ["Shift L", "play the passage at hand over and over, or stop looping"],
      ["Shift P", "make a passage of the selection"],
      ["Shift PgUp PgDn", "take the passage {before|after} in hand"],
      ["Q", "have the notes of the selection heard at once, in pencil; Esc stops that"],
      [", .", "{slower|faster}; the pitch is kept"],
      ["Y", "hear the record, both, the steel, in turn"],
      ["( )", "more {of the record|of the steel}, where both are heard"],
      ["U", "a drone on home, or stop it"],
      ["J", "bass and chords play the changes along, or stop"],
      ["+ -", "zoom {in|out}"],
      ["PgUp PgDn", "scroll the lanes {back|on}"],
      ["K", "play notes in by a MIDI keyboard, or stop"],
      ["Shift K", "play notes in by the microphone, or stop"],
      ["I", "open or close the list of heard notes"],
      ["!", "check the selected passage of the part, or the whole part, against the record; Esc stops that"],
      ["; :", "the {next|one before} of what the check marks"],
      ["Home", "back to the start of the selection"],
      ["H", "take home in hand; not from the part"],
      ["Ctrl Z", "take back your last act"],
      ["Ctrl Shift Z", "do it again"],
      ["Esc", "select nothing"],
      ["Ctrl K", "do something: find any of these acts by words"],
      ["?", "these keys"],
    ],
  },
  {
    name: "Changes",
    places: ["nothing", "change", "span"],
    first: "Select a change first.",
    keys: [
      ["← →", "the change {before|after}"],
      ["Shift ← →", "the playhead a beat {back|on}"],
      ["Enter", "ink it"],
      ["V", "hear it as bass and chord"],
      ["Shift V", "hear it as bass and chord over and over, until V again"],
      ["O", "the machine's other guesses, one after the other"],
      ["1–7 or A–G", "type another chord: 4, 2-, 1/3, G/B; N for none, F2 for an empty field"],
      [
        "Shift F2",
        "type changes in a run, from this bar on: 1 4 (5 57) 1; a space in the field of one change leads there too",
      ],
      [
        "Z",
        "hear the 1, the 4, the 5 of home in its place, in turn; Enter inks the one that is tried, Esc leaves it",
      ],
      ["Shift H", "home changes at this bar; not from the part"],
      ["S", "split at the playhead"],
      ["M", "merge with the next"],
      ["[ ]", "move its start by a beat, {back|on}"],
      ["{ }", "move its end by a beat, {back|on}"],
      ["Backspace", "rub out"],
      ["↑ ↓", "to {the section above|the bass below}"],
      ["P", "go to the part: to what begins here, or where the hands are"],
    ],
  },
  {
    name: "Beats and bars",
    places: ["nothing", "change", "bass", "section", "home", "beat", "span"],
    first: "Select nothing first (Esc).",
    keys: [
      ["T", "tap a beat while the record plays; not from heard notes or the part"],
      ["X", "take the beat here in hand; not from the part"],
    ],
  },
  {
    name: "Beats that are being tapped",
    places: ["tapping"],
    first: "Tap beats first (T).",
    keys: [
      ["1", "tap the first of a bar"],
      ["Backspace", "take the last tap back"],
      ["Enter", "lay the beats over the record"],
      ["Shift Enter", "lay the beats only where they were tapped"],
      ["Esc", "drop the taps"],
    ],
  },
  {
    name: "The beat in hand",
    places: ["beat"],
    first: "Take a beat in hand first (X).",
    keys: [
      ["← →", "the beat {before|after}"],
      ["1", "it is the first of its bar, all others move with it"],
      ["Alt 1", "it is the first of its bar, from here on only"],
      ["2–9", "so many beats to the bar from this bar on; with Alt in this bar alone"],
      ["[ ]", "the beat 10 ms {earlier|later}"],
      ["{ }", "all beats 10 ms {earlier|later}"],
      ["/ *", "{half|twice} as many beats"],
      ["S", "one beat more after it"],
      ["Backspace", "take the beat out"],
      ["D", "beats fall into two, into three"],
      ["F", "a selected stretch is free time, or has a beat after all"],
      ["Enter", "ink the beats"],
    ],
  },
  {
    name: "Bass",
    places: ["bass"],
    first: "Select a note of the bass line first.",
    keys: [
      ["← →", "the note {before|after}"],
      ["Enter", "ink it"],
      ["1–7 or A–G", "another note, the nearest of that name"],
      ["Alt ↑ ↓", "a half step {up|down}"],
      ["Alt Shift ↑ ↓", "an octave {up|down}"],
      ["[ ] { }", "move {its start back|its start on|its end back|its end on} by a beat"],
      ["Backspace", "rub out"],
      ["↑ ↓", "to {the changes above|the heard notes below}"],
    ],
  },
  {
    name: "Heard notes",
    places: ["note", "band"],
    first: "Select a heard note first.",
    keys: [
      ["← →", "the note {before|after}"],
      ["Enter", "ink it"],
      ["S", "sound it alone"],
      ["Shift S", "sound all that is picked with it"],
      ["R", "hear it in the record"],
      ["Shift R", "hear all that is picked with it in the record"],
      ["T", "say whose it is: not the steel's, or the steel's after all"],
      ["W", "write it into the part, with what is picked with it"],
      ["1–7 or A–G", "another note, the nearest of that name"],
      ["Alt ↑ ↓", "a half step {up|down}"],
      ["Alt Shift ↑ ↓", "an octave {up|down}"],
      ["[ ] { }", "move {its start back|its start on|its end back|its end on} by a quarter of a beat"],
      ["Backspace", "rub out"],
      ["↑ ↓", "to {the bass above|the part below}"],
    ],
  },
  {
    name: "A selected stretch, section or passage",
    places: ["span", "section", "study"],
    first: "Select a stretch of the record, a section or a passage first.",
    keys: [
      ["S", "sound its notes alone"],
      ["R", "hear its notes in the record"],
      ["W", "write its notes into the part, in pencil"],
      ["N", "then the next way to play them"],
    ],
  },
  {
    name: "Passages",
    places: ["study"],
    first: "Take a passage in hand first (Shift PgDn).",
    keys: [
      ["← →", "the passage {before|after}"],
      ["F2", "name it"],
      ["[ ] { }", "move {its start back|its start on|its end back|its end on} by a beat"],
      ["Backspace", "rub out"],
      ["↓", "to the sections or changes below"],
    ],
  },
  {
    name: "Sections and home",
    places: ["section", "home"],
    first: "Select a section, or take home in hand, first.",
    keys: [
      ["← →", "the one {before|after}"],
      ["Enter", "ink it"],
      ["F2", "name a section, and those that repeat it"],
      ["O", "home: the machine's other guesses"],
      ["[ ] { }", "move {its start back|its start on|a section's end back|a section's end on} by a beat"],
      ["Backspace", "rub out"],
      ["↓", "to the changes below"],
    ],
  },
  {
    name: "Part",
    places: ["caret"],
    first: "Go to the part first (P).",
    keys: [
      ["← →", "a beat {back|on}"],
      ["Alt ← →", "a quarter of a beat {back|on}"],
      ["↑ ↓", "string {above|below}"],
      ["0–9", "fret; two digits in a row make one number"],
      ["A B C F E …", "pedal or lever on, off; D twice goes all the way"],
      [
        "_",
        "all pedals and levers as a list, also those with longer names or named I J K L N Q U Y: type the name or number, Enter for on, off; Esc leads back",
      ],
      ["/", "slide into it with the bar"],
      [">", "press or let off while it rings"],
      ["Shift ← →", "{shorter|longer}"],
      ["[ ]", "move its start by half a beat, {back|on}"],
      ["{ }", "move its end by half a beat, {back|on}"],
      ["F2", "name notes for the bench; Enter takes the easiest place, Esc leads back"],
      ["N", "try the next place on the bench by ear, in the loop where it runs; nothing is written"],
      ["* # &", "lock {the string for its note|the fret|pedals up, down or free}; again lets off"],
      ["%", "all locks for the places on the bench; Esc leads back"],
      ["Enter", "ink the place that is tried, else the event"],
      ["Backspace", "rub out"],
      ["Esc, then ←", "leave what is tried; back to the changes"],
    ],
  },
];
