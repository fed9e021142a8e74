/** One stop of the first walk. */
export interface WalkStep {
  title: string;
  words: string;
  /** What on the page it is about: the name that a screen reader says for it. */
  about: string;
}

/** The first walk round the song page, in the order of the work. Five stops are enough; the rest is said where it is needed. */
export const WALK_STEPS: readonly WalkStep[] = [
  {
    title: "Listen",
    words:
      "The round button (Space) plays the record. Drag over a few bars, then Loop it (L) goes round them; slow them down with the pitch kept (comma).",
    about: "Record",
  },
  {
    title: "Pencil and ink",
    words:
      "The changes are in pencil: what the machine takes them for. Choose one and ink it (Enter), or type another in its place. What you ink, the machine never touches.",
    about: "Changes",
  },
  {
    title: "Hear the steel",
    words:
      "Each note that the steel plays stands at its height and bends where it glides. Choose one to sound it alone (S), to pick it out of the record (R) or to take it to the part (W).",
    about: "Heard",
  },
  {
    title: "Find where it lies",
    words:
      "The part is tab, one line a string. Under Where it lies stand the places of its notes, easiest first and why. Try one after the other by ear (N), and ink the one you want (Enter).",
    about: "Part",
  },
  {
    title: "What comes next",
    words:
      "The steps say what is done and what comes next. The glass in the head (Ctrl K) finds any act by words, ? lists all keys, and Undo (Ctrl Z) takes back your last act.",
    about: "Passage",
  },
];
