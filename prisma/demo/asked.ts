import type { Beats } from "@/lib/units/quantities";

/** A stretch of the demo in bars and beats, both from 1. */
interface DemoStretch {
  bar: number;
  beat: Beats;
  lengthBeats: Beats;
}

/** What the demo's student asks, and what the teacher answers. */
export interface DemoQuestion extends DemoStretch {
  words: string;
  /** Null where nobody answered yet; the student has settled what was answered. */
  answer: (DemoStretch & { words: string }) | null;
}

/** About bars 3 and 10 of the steel's part. */
export const DEMO_QUESTIONS: readonly DemoQuestion[] = [
  {
    bar: 3,
    beat: 1,
    lengthBeats: 4,
    words: "Pedal or slide? I hear the lower note go up while the one above it stays.",
    answer: {
      bar: 3,
      beat: 2.5,
      lengthBeats: 2.5,
      words:
        "Pedal A. The bar stays at 5: string 5 goes up a whole step, string 4 rings on. Loop it at half speed and listen to string 4, it is not picked again.",
    },
  },
  {
    bar: 10,
    beat: 1,
    lengthBeats: 2,
    words: "How do you know that this is fret 8 with A and F, and not another place for the same two notes?",
    answer: null,
  },
];
