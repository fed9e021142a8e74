import { pitchClassOf } from "../metrics/harteEncoding";
import { isMinor, type NamedKey, weightedKeyScore } from "../metrics/keyScore";
import { piecesOf } from "../metrics/pieces";
import type { Prediction } from "../prediction";
import type { Truth } from "../Subject";
import { homesOf } from "../scoreItem";
import { addTo, counted, largest, seconds } from "./words";

export function keyReason({ key }: Truth, prediction: Prediction): string {
  return `${relation(key!, prediction.key)}: ${named(prediction.key)} for ${named(key!)}`;
}

/** Which homes are taken for which, and whether changes of key are missed or made up. */
export function homesReason({ homes: reference }: Truth, prediction: Prediction): string {
  const told = homesOf(prediction);
  const kinds = new Map<string, number>();
  for (const { startSec, endSec, reference: wanted, estimate } of piecesOf(reference!, told)) {
    if (!estimate) addTo(kinds, "without a home", endSec - startSec);
    else if (weightedKeyScore(wanted, estimate) < 1) {
      addTo(
        kinds,
        `${relation(wanted, estimate)} (${named(estimate)} for ${named(wanted)})`,
        endSec - startSec,
      );
    }
  }
  return `${counted(told.length - 1, "change")} of key told where there ${reference!.length === 2 ? "is" : "are"} ${reference!.length - 1}; ${largest(kinds, seconds)}`;
}

function named({ tonic, mode }: NamedKey): string {
  return `${tonic} ${isMinor(mode) ? "minor" : "major"}`;
}

/** How the key heard stands to the key. */
export function relation(reference: NamedKey, estimate: NamedKey): string {
  const up = (pitchClassOf(estimate.tonic) - pitchClassOf(reference.tonic) + 12) % 12;
  const sameMode = isMinor(reference.mode) === isMinor(estimate.mode);
  if (!sameMode && up === (isMinor(reference.mode) ? 3 : 9)) return "relative key";
  if (!sameMode && up === 0) return "parallel key";
  if (sameMode && up === 7) return "key a fifth above";
  if (sameMode && up === 5) return "key a fifth below";
  if (up === 1 || up === 11) return `key a semitone ${up === 1 ? "above" : "below"}`;
  return sameMode ? "other key" : "other key and mode";
}
