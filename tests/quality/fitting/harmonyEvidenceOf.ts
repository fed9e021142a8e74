import { chooseBeats } from "@/lib/hearing/beatLevel";
import { stretchChroma } from "@/lib/hearing/chroma";
import { hearOnsets, hearPitchSpectra } from "@/lib/hearing/evidence";
import type { HarmonyEvidence } from "@/lib/hearing/harmony";
import { beatCurves } from "@/lib/hearing/learned/beatCurves";
import type { LearnedEar } from "@/lib/hearing/learned/LearnedEar";
import { beatEvidence } from "@/lib/hearing/novelty";
import type { RecordSignal } from "@/lib/hearing/RecordIntake";
import { cutAtBeats } from "@/lib/hearing/stretches";
import { hearTuning } from "@/lib/hearing/tuning";

/** All that the beats and chords of a record are heard from, as the ear finds it. */
export function harmonyEvidenceOf(
  { signal, durationSec }: Pick<RecordSignal, "signal" | "durationSec">,
  ear: LearnedEar | null,
): HarmonyEvidence {
  const learned = ear?.listen(signal) ?? null;
  const onsets = hearOnsets(signal);
  const spectra = hearPitchSpectra(signal, hearTuning(signal).cents);
  const curves = learned && beatCurves(learned, onsets.frameRateHz, onsets.all.length);
  const evidence = beatEvidence(onsets, spectra, curves);
  const { timesSec, division } = chooseBeats(evidence, durationSec);
  const { edgesSec } = cutAtBeats(timesSec, null, durationSec, division);
  const chroma = stretchChroma(spectra, edgesSec);
  return { beatsSec: timesSec, division, beatEvidence: evidence, chroma, learned, durationSec };
}
