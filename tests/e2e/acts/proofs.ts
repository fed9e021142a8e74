import { EVERYWHERE } from "./everywhere";
import { BASS, BEAT, BEATS, CHANGES, GUESSING, NOTES, PASSAGES, SECTIONS, STRETCH, TAPPING } from "./harmony";
import type { GroupProofs } from "./Proof";
import { EVENTS, PART } from "./part";
import { QUESTIONS } from "./questions";
import { RECORDED, TAKES } from "./takes";

/**
 * How every act of the table of keys (app/songs/[songId]/parts/keyTable.ts) is proven by its key and by a control or a
 * gesture, under the names of its groups. `tests/unit/app/actProofs.test.ts` holds both tables to each other.
 */
export const PROOFS: Readonly<Record<string, GroupProofs>> = {
  Everywhere: { ...EVERYWHERE, F10: RECORDED },
  Changes: CHANGES,
  "Beats and bars": BEATS,
  "Beats that are being tapped": TAPPING,
  "The beat in hand": BEAT,
  Bass: BASS,
  "Heard notes": NOTES,
  "A selected stretch, section or passage": STRETCH,
  Passages: PASSAGES,
  Questions: QUESTIONS,
  "Sections and home": SECTIONS,
  Part: PART,
  "Several events of the part": EVENTS,
  Takes: TAKES,
  // Last, since it covers changes.
  "A guess, in its field": GUESSING,
};
