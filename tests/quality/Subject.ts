import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { ReferenceGlide } from "@/lib/scoring/glideScore";
import type { ReferenceNote } from "@/lib/scoring/noteScore";
import type { ChordSpan } from "./metrics/chordSpans";
import type { HomeSpan } from "./metrics/homesScore";
import type { NamedKey } from "./metrics/keyScore";

export interface ReferenceBeat {
  timeSec: number;
  /** Position in the bar, 1 = downbeat. */
  inBar: number;
}

/** What is known of a record. A field is missing where nobody has annotated it; it is then not scored. */
export interface Truth {
  tuningCents?: number;
  key?: NamedKey;
  homes?: HomeSpan[];
  beats?: ReferenceBeat[];
  tempoBpm?: number;
  /** Beats to the bar. */
  beatsPerBar?: number;
  /** Parts that a beat falls into, as the ear counts them. */
  division?: 2 | 3;
  chords?: ChordSpan[];
  /** The bass line over the whole record; pitches relative to the record's own tuning. */
  bass?: ReferenceNote[];
  /** Sections with one label repeat one another. */
  sections?: ChordSpan[];
  /** Notes within a passage; pitches relative to the record's own tuning. */
  passage?: {
    span: HeardStretch;
    notes: ReferenceNote[];
    scoresAll: boolean;
    glides: ReferenceGlide[] | null;
  };
}

/** How a copy of one of our own songs is damaged. */
export type Damage = "old-record" | "noise" | "small-speaker";

/** Where the samples come from: a file, or a song of our own that is played when it is wanted. */
export type Source = { kind: "file"; path: string } | { kind: "own"; song: string; damage: Damage | null };

/** One annotated record. */
export interface Subject {
  id: string;
  group: string;
  durationSec: number;
  source: Source;
  truth: Truth;
}

export interface SubjectSet {
  /** `A`, `B` or `own`. */
  name: string;
  subjects: Subject[];
}
