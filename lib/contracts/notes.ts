import type { HeardNote } from "@/lib/hearing/Hearing";

/** The band's notes of a song; the steel's are in the shared song. */
export interface SongNotes {
  /** `noEar`: this house has no learned ear, which notes take. `notHeard`: nobody has listened for notes so far. */
  state: "heard" | "noEar" | "notHeard";
  /** In order of time. */
  notes: HeardNote[];
}
