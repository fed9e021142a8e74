import type { Midi } from "@/lib/units/quantities";
import { SEMITONES } from "../learned/layout";
import { mostLeftBySteel } from "./arrivalEvidence";
import { type Evidence, mapLogOdds } from "./LogisticModel";
import type { NoteMaps } from "./NoteMaps";
import type { PartialRise } from "./PartialRise";
import { CANDIDATES } from "./parameters";
import type { MapPeak } from "./peaks";

/** What speaks for or against a peak of the onset map being a pick, and one of the steel's. */
export type PickEvidence = Evidence<
  | "mass"
  | "sounding"
  | "held"
  | "lowerOnset"
  | "steel"
  | "melody"
  | "steelOnset"
  | "bandOnset"
  | "bandCompany"
  | "bandAgain"
  | "heldRise"
  | "company"
  | "arrival"
  | "left"
>;

/** Semitones from a note down to those of which it is the second, third and fourth partial. */
const BELOW = [12, 19, 24];

export function pickEvidence(maps: NoteMaps, rise: PartialRise, peak: MapPeak, midi: Midi): PickEvidence {
  const { frame, semitone } = peak;
  const soon = (map: Parameters<NoteMaps["mean"]>[0], s = semitone) =>
    maps.mean(map, frame + 1, frame + 6, s);
  const onsetNear = (s: number) => maps.most("onset", frame - 2, frame + 2, s);
  return {
    mass: peak.mass,
    sounding: mapLogOdds(soon("frame")),
    // Sounds before the pick without a gap: a held note that is struck anew, or only seems to be.
    held: Math.min(...[-2, -1, 0].map((d) => maps.at("frame", frame + d, semitone))),
    lowerOnset: Math.max(...BELOW.map((interval) => onsetNear(semitone - interval))),
    steel: mapLogOdds(soon("steel")),
    melody: mapLogOdds(soon("melody")),
    steelOnset: mapLogOdds(maps.most("steelOnset", frame - 1, frame + 1, semitone)),
    bandOnset: mapLogOdds(maps.most("bandOnset", frame - 1, frame + 1, semitone)),
    bandCompany: bandCompany(maps, frame, semitone),
    bandAgain: bandAgain(maps, frame, semitone),
    heldRise: maps.mean("frame", frame - 5, frame - 3, semitone) * rise.at(frame, midi),
    company: company(maps, frame, semitone),
    arrival: mapLogOdds(maps.most("arrival", frame - 3, frame + 3, semitone)),
    left: mostLeftBySteel(maps, frame, semitone),
  };
}

/** How much else of the steel is picked at the same time. */
function company(maps: NoteMaps, frame: number, semitone: number): number {
  let sum = 0;
  for (let s = 0; s < SEMITONES; s++) {
    if (s === semitone) continue;
    const onset = maps.most("onset", frame - 2, frame + 2, s) - CANDIDATES.onsetAbove;
    if (onset > 0) sum += onset * maps.mean("steel", frame + 1, frame + 6, s);
  }
  return Math.log1p(sum);
}

/** How much else the band strikes at the same time. */
function bandCompany(maps: NoteMaps, frame: number, semitone: number): number {
  let sum = 0;
  for (let s = 0; s < SEMITONES; s++) {
    if (s !== semitone) sum += maps.most("bandOnset", frame - 2, frame + 2, s);
  }
  return Math.log1p(sum);
}

/** Frames to both sides of a pick in which a stroke of the band on the same note is looked for: two seconds. */
const AGAIN_FRAMES = 86;
/** Nearer than this it is the pick itself. */
const ITSELF_FRAMES = 6;

/** How surely the band strikes the note a little before or after: who comps strikes a chord again and again. */
function bandAgain(maps: NoteMaps, frame: number, semitone: number): number {
  return Math.max(
    maps.most("bandOnset", frame - AGAIN_FRAMES, frame - ITSELF_FRAMES, semitone),
    maps.most("bandOnset", frame + ITSELF_FRAMES, frame + AGAIN_FRAMES, semitone),
  );
}
