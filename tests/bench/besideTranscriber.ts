import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { hearNotesInPieces } from "@/lib/hearing/notes/hearNotesInPieces";
import { hearTuning } from "@/lib/hearing/tuning";
import type { ScoredNote } from "@/lib/scoring/scoredNote";
import { predictNotes } from "../quality/notes/predictNotes";
import type { Subject } from "../quality/Subject";
import { scoreNotes, scoreSteel } from "../quality/scoreNotes";
import { mean } from "../quality/summary";
import { soundOf, takeSound } from "../quality/takeSound";
import { cpuSec } from "./cpuSec";
import { notesOf, SIBLINGS_SETTING, type Transcriber, USUAL_SETTING } from "./transcriber";

/** What is scored, in the order in which it is printed: names of the quality report. */
const METRICS = ["noteP", "noteR", "noteF", "dyadRate", "slideRecall", "leadP", "leadR", "leadF"] as const;
type Figures = Partial<Record<string, number>>;

const HEARERS = ["ours", "transcriber", "transcriberAsSibling"] as const;
type Hearer = (typeof HEARERS)[number];
const NAMES: Record<Hearer, string> = {
  ours: "our notes",
  transcriber:
    "the general transcriber, its functions' own setting (onset 0.5, frame 0.3, 5 frames at least)",
  transcriberAsSibling: "the same with its Python sibling's shortest note (127.7 ms, 11 frames)",
};

/** Figures of one record. */
interface Compared {
  figures: Record<Hearer, Figures>;
  durationSec: number;
  oursSec: number;
  transcriberSec: number;
}

async function compareOn(subject: Subject, ear: NotesEar, transcriber: Transcriber): Promise<Compared> {
  const { truth, durationSec } = subject;
  const passage = truth.passage!;
  const record = await takeSound(soundOf(subject.source));
  const { signal, side } = record;
  const samples = signal.read(0, new Float32Array(signal.length));

  let since = cpuSec();
  const tuningCents = hearTuning(signal).cents;
  hearNotesInPieces({ signal, side, tuningCents, ear }, { startSec: 0, endSec: durationSec });
  const oursSec = cpuSec() - since;
  since = cpuSec();
  const transcription = await transcriber.transcribe(samples);
  const notes: Record<Hearer, ScoredNote[]> = {
    ours: [],
    transcriber: notesOf(transcription, USUAL_SETTING),
    transcriberAsSibling: [],
  };
  const transcriberSec = cpuSec() - since;
  notes.transcriberAsSibling = notesOf(transcription, SIBLINGS_SETTING);
  // As the quality report hears them: the passage alone.
  notes.ours = predictNotes(record, ear, passage.span);

  const shift = (truth.tuningCents ?? 0) / 100;
  const score = (given: ScoredNote[]): Figures => ({
    ...(passage.scoresAll ? scoreNotes(passage.notes, given, passage.span, shift) : {}),
    ...(passage.glides ? scoreSteel(passage.notes, passage.glides, given, passage.span, shift) : {}),
  });
  const figures = {
    ours: score(notes.ours),
    transcriber: score(notes.transcriber),
    transcriberAsSibling: score(notes.transcriberAsSibling),
  };
  return { figures, durationSec, oursSec, transcriberSec };
}

function figureWords(all: readonly Figures[]): string {
  return METRICS.flatMap((metric) => {
    const values = all.flatMap((figures) => figures[metric] ?? []);
    return values.length > 0 ? [`${metric} ${mean(values).toFixed(3)} (${values.length})`] : [];
  }).join(", ");
}

/**
 * Hears records by our ear and by the general transcriber, the same samples, and scores both alike: means over the
 * records, how many records in brackets. Pairs are `dyadRate`, arrivals of glides `slideRecall`, and `lead` the
 * steel's notes, of whoever tells them apart those said to be the steel's. Times are of the whole record, one thread.
 * @param subjects those whose notes are known; others are passed over
 * @returns lines to print
 */
export async function besideTranscriber(
  set: string,
  subjects: readonly Subject[],
  ear: NotesEar,
  transcriber: Transcriber,
  onHeard: (id: string) => void = () => {},
): Promise<string[]> {
  const all: Compared[] = [];
  for (const subject of subjects) {
    const { passage } = subject.truth;
    if (!passage || !(passage.scoresAll || passage.glides)) continue;
    all.push(await compareOn(subject, ear, transcriber));
    onHeard(subject.id);
  }
  const total = (of: (one: Compared) => number) => all.reduce((sum, one) => sum + of(one), 0);
  const minutes = total(({ durationSec }) => durationSec) / 60;
  const seconds: Record<Hearer, number> = {
    ours: total(({ oursSec }) => oursSec),
    transcriber: total(({ transcriberSec }) => transcriberSec),
    transcriberAsSibling: total(({ transcriberSec }) => transcriberSec),
  };
  return [
    `notes of set ${set} (${all.length} records, ${minutes.toFixed(1)} min):`,
    ...HEARERS.map((hearer) => {
      const figures = figureWords(all.map((one) => one.figures[hearer]));
      return `  ${NAMES[hearer]}: ${figures}; ${(seconds[hearer] / minutes).toFixed(2)} s a minute`;
    }),
  ];
}
