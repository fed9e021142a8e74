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
      "Space plays the record. Drag over a few bars and press L to go round them; the comma slows them down, the pitch stays.",
    about: "Record",
  },
  {
    title: "Pencil and ink",
    words:
      "The changes are in pencil: what the machine takes them for. Click one. Enter inks it, a number or a letter puts another in its place. What you ink, the machine never touches.",
    about: "Changes",
  },
  {
    title: "Hear the steel",
    words:
      "Each note that the steel plays stands at its height and bends where it glides. Click one: S sounds it alone, R picks it out of the record, W takes it to the part.",
    about: "Heard",
  },
  {
    title: "Find where it lies",
    words:
      "The part is tab, one line a string. Below it stand the places where its notes lie, easiest first and why. N tries the next by ear, Enter inks the one you want.",
    about: "Part",
  },
  {
    title: "What comes next",
    words:
      "The steps say what is done and what comes next. Ctrl K finds any act by words, ? lists all keys, and Ctrl Z takes back your last act.",
    about: "Passage",
  },
];
