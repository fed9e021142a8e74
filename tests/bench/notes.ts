import { EarFeatures } from "@/lib/hearing/learned/EarFeatures";
import { type FrameNetwork, feedFrames, ROWS_AT_ONCE } from "@/lib/hearing/learned/feedFrames";
import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { hearNotesInPieces } from "@/lib/hearing/notes/hearNotesInPieces";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import { hearTuning } from "@/lib/hearing/tuning";

/** Seconds that hearing notes alone takes, and of these the features and the network. */
export interface NotesTimes {
  wholeSec: number;
  featuresSec: number;
  networkSec: number;
}

/** Hears the notes of a record. @param nowSec this process's own time */
export function timeNotes(record: RecordSignal, ear: NotesEar, nowSec: () => number): NotesTimes {
  const { signal, side, durationSec } = record;
  const tuningCents = hearTuning(signal).cents;
  const start = nowSec();
  hearNotesInPieces({ signal, side, tuningCents, ear }, { startSec: 0, endSec: durationSec });
  const heard = nowSec();
  const nothing: FrameNetwork = { push: () => {}, finish: () => {} };
  feedFrames(new EarFeatures(record, ROWS_AT_ONCE, ear.stereo), nothing);
  const seen = nowSec();
  ear.listen(record, () => {});
  const said = nowSec();
  return { wholeSec: heard - start, featuresSec: seen - heard, networkSec: said - seen - (seen - heard) };
}
