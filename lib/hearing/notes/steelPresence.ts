import type { Certainty } from "../Hearing";
import { certainty } from "./LogisticModel";
import type { NoteMaps } from "./NoteMaps";
import type { ArrivalEvent } from "./noteEvents";
import type { NoteOdds } from "./noteOdds";
import { ACCEPT } from "./parameters";
import { presenceEvidence } from "./presenceEvidence";

/**
 * How likely a steel plays in the stretch: it is heard throughout, or by any one of its glides (noisy or: J. Pearl,
 * "Probabilistic Reasoning in Intelligent Systems", 1988).
 */
export function steelPresence(maps: NoteMaps, arrivals: readonly ArrivalEvent[], odds: NoteOdds): Certainty {
  let without = 1 - certainty(odds.presence, presenceEvidence(maps));
  for (const { confidence } of arrivals) if (confidence >= ACCEPT.glide) without *= 1 - confidence;
  return 1 - without;
}
