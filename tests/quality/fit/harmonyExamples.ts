import type { SoundingChord } from "@/lib/fit/chordEvidence";
import type { FitEar } from "@/lib/fit/FitEar";
import type { FitSound } from "@/lib/fit/FitSound";
import { type HarmonySpectra, harmonySpectra } from "@/lib/fit/HarmonySpectra";
import type { SoundingKey } from "@/lib/fit/keyEvidence";
import { nearChords, nearKeys } from "@/lib/fit/nearHarmony";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { parseHarte } from "@/lib/theory/harte";
import type { Mode } from "@/lib/theory/key";
import { parsePitchName } from "@/lib/theory/spelling";
import type { Truth } from "../Subject";
import { wholeRecord } from "../wholeRecord";
import { spread } from "./fitEvents";

/** A stretch of a record with a chord or a key that it is in, and near misses of that. */
export type HarmonyExample = { id: string; spectra: HarmonySpectra } & (
  | { kind: "chord"; right: SoundingChord; misses: SoundingChord[] }
  | { kind: "key"; right: SoundingKey; misses: SoundingKey[] }
);

/** A stretch of a record with what is right there. */
export type HarmonySpan = HeardStretch &
  ({ kind: "chord"; label: string } | { kind: "key"; tonic: string; mode: Mode });

const SHORTEST_CHORD_SEC = 0.4;
const CHORDS_A_RECORD = 16;
/** Parts of a record that keys are held against, beside the whole. */
const KEY_SEC = [4, 8, 16];

/** Chords and homes of a record that can be asked for. */
export function harmonySpans(truth: Truth, mostChords = CHORDS_A_RECORD): HarmonySpan[] {
  const chords = (truth.chords ?? []).filter(
    ({ startSec, endSec, label }) => endSec - startSec >= SHORTEST_CHORD_SEC && isChord(label),
  );
  const homes = truth.homes ?? (truth.key && truth.beats ? wholeRecord(truth.key) : []);
  const lastSec = truth.beats?.at(-1)?.timeSec ?? 0;
  return [
    ...spread(chords, mostChords).map((chord): HarmonySpan => ({ kind: "chord", ...chord })),
    ...homes.flatMap(({ startSec, endSec, tonic, mode }) => {
      const toSec = Math.min(endSec, lastSec);
      const parts = KEY_SEC.filter((sec) => sec < toSec - startSec);
      const spans = parts.map((sec, i) => {
        const from = startSec + ((toSec - startSec - sec) * (i + 1)) / (parts.length + 1);
        return { startSec: from, endSec: from + sec };
      });
      const whole = toSec - startSec > 4 ? [{ startSec, endSec: toSec }] : [];
      return [...spans, ...whole].map(
        (span): HarmonySpan => ({ kind: "key", tonic, mode: mode as Mode, ...span }),
      );
    }),
  ];
}

function isChord(label: string): boolean {
  try {
    return parseHarte(label) !== null;
  } catch {
    return false;
  }
}

const keyOf = ({ tonic, mode }: { tonic: string; mode: Mode }): SoundingKey => ({
  tonic: parsePitchName(tonic).pitchClass,
  mode,
});

export function harmonyExample(id: string, ear: FitEar, sound: FitSound, span: HarmonySpan): HarmonyExample {
  const spectra = harmonySpectra(ear.look(sound, span), span.endSec - span.startSec);
  if (span.kind === "key")
    return { id, spectra, kind: "key", right: keyOf(span), misses: nearKeys(span).map(keyOf) };
  const right = parseHarte(span.label)!;
  return { id, spectra, kind: "chord", right, misses: nearChords(right).map((label) => parseHarte(label)!) };
}

export function harmonyExamples(id: string, ear: FitEar, sound: FitSound, truth: Truth): HarmonyExample[] {
  return harmonySpans(truth).map((span) => harmonyExample(id, ear, sound, span));
}
