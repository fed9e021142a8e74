import type { Certainty, HeardStretch } from "@/lib/hearing/Hearing";
import type {
  BassRecord,
  ChangeRecord,
  GridRecord,
  HomeRecord,
  NoteRecord,
  NoteRole,
  RecordKind,
  SectionRecord,
  TuningRecord,
} from "../records/records";
import type { Asides } from "../records/registers";

/** Kinds of what is heard; the part is not, people write it. */
export const LABEL_KINDS = [
  "note",
  "change",
  "bass",
  "section",
  "home",
  "tuning",
  "grid",
] as const satisfies readonly RecordKind[];
export type LabelKind = (typeof LABEL_KINDS)[number];

/** What a record says, apart from who says so and when. */
export interface LabelValues {
  note: Pick<NoteRecord, "startSec" | "endSec" | "midi" | "glides"> & Pick<NoteRole, "whose">;
  change: Pick<ChangeRecord, "startSec" | "endSec" | "label">;
  bass: Pick<BassRecord, "startSec" | "endSec" | "midi">;
  section: Pick<SectionRecord, "startSec" | "endSec" | "label" | "transposedSemitones">;
  home: Pick<HomeRecord, "startSec" | "tonic" | "mode">;
  tuning: Pick<TuningRecord, "tuningCents">;
  grid: Pick<GridRecord, "beatsSec" | "inBar" | "beatsPerBar" | "division" | "freeStretches">;
}

/** What people made of a proposal (rule D35). */
export type LabelAct =
  /** Nothing so far: it stands in pencil. */
  | "open"
  /** Nothing so far, and it is not to be seen: ink says the same, or wins its place. */
  | "hidden"
  /** Inked as it was. */
  | "inked"
  /** Inked with other words; `changed` says which. */
  | "corrected"
  | "rubbedOut"
  /** Written by a person where the machine had proposed nothing. */
  | "added";

export interface Proposed<K extends LabelKind> {
  values: LabelValues[K];
  /** How sure the machine was; null where the document no longer tells. */
  confidence: Certainty | null;
  /** What else it said, see {@link Asides}; null where nothing. */
  aside: Asides[K] | null;
  /** Name and number of the method that said so (rule D34); null where the document does not tell. */
  ear: string | null;
}

/** One thing that the machine proposed, a person wrote, or both. */
export interface Label<K extends LabelKind, Person = string> {
  act: LabelAct;
  /** Null where it was added. */
  proposed: Proposed<K> | null;
  /** What stands in ink; null where nothing does. */
  settled: LabelValues[K] | null;
  /** In what `settled` says otherwise than `proposed`. */
  changed: (keyof LabelValues[K])[];
  /** Who inked it, said whose it is, or rubbed it out, each once. */
  by: Person[];
}

/** What people made of all that was heard of one song. */
export interface SongLabels<Person = string> {
  /** Of each kind in order of time. */
  labels: { [K in LabelKind]: Label<K, Person>[] };
  /** Where every note was settled, in order of time (rule D36). */
  notesGoneOver: HeardStretch[];
}
