import type { Technique } from "@/lib/notation/Technique";

/** Names of techniques as buttons have them, and what is done. */
export const TECHNIQUE_WORDS: Readonly<Record<Technique, { name: string; does: string }>> = {
  harmonic: { name: "Harmonic", does: "Touched an octave above: sounds an octave higher" },
  vibrato: { name: "Vibrato", does: "The hand shakes it" },
  block: { name: "Block", does: "Stopped short by palm or pick" },
};
