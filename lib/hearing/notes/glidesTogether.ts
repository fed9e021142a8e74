import type { Cents } from "@/lib/units/quantities";
import { frameSec } from "../learned/EarFeatures";
import { leaving } from "./arrivalEvidence";
import { STEEL_FROM } from "./isSteel";
import type { NoteMaps } from "./NoteMaps";
import { pitchOf, soundsUntil } from "./pitch";
import { type Leg, lastLeg, moveOn, type Voice } from "./voices";

/** Frames about a glide in which its companion may arrive. */
const REACH = 4;
/** How surely the companion must be heard to leave its pitch, and to arrive or sound at the new one. Set here. */
const LEAVING_FROM = 0.3;
const ARRIVING_FROM = 0.05;
const SOUNDING_FROM = 0.5;

/**
 * Strings under one bar move together: where one string of the steel glides and another one stops at the same time,
 * a fainter arrival at the same interval counts as its glide.
 */
export function glidesTogether(maps: NoteMaps, voices: readonly Voice[], tuningCents: Cents): void {
  const glides = voices
    .filter((voice) => voice.steel >= STEEL_FROM)
    .flatMap((voice) =>
      voice.legs.slice(1).map((leg, i) => ({ leg, interval: leg.semitone - voice.legs[i]!.semitone })),
    );
  for (const { leg, interval } of glides) {
    for (const voice of voices) {
      const from = lastLeg(voice);
      if (from === leg || voice.steel < STEEL_FROM || from.frame > leg.frame - 2) continue;
      if (from.endFrame < leg.frame - REACH || leaving(maps, leg.frame, from.semitone) < LEAVING_FROM)
        continue;
      const companion = arrivalAt(maps, leg, from.semitone + interval, tuningCents);
      const taken = voices.some(({ legs }) =>
        legs.some(
          ({ semitone, frame }) => semitone === companion?.semitone && Math.abs(frame - leg.frame) <= REACH,
        ),
      );
      if (!companion || taken) continue;
      from.endFrame = Math.min(from.endFrame, leg.frame);
      moveOn(voice, companion);
    }
  }
}

function arrivalAt(maps: NoteMaps, leg: Leg, semitone: number, tuningCents: Cents): Leg | null {
  const { frame } = leg;
  const arriving = maps.most("arrival", frame - REACH, frame + REACH, semitone);
  const sounding = maps.mean("frame", frame + 3, frame + 8, semitone);
  if (arriving < ARRIVING_FROM || sounding < SOUNDING_FROM) return null;
  const endFrame = soundsUntil(maps, semitone, frame + REACH, maps.endFrame);
  const midi = pitchOf(maps, semitone, frame + 2, endFrame, tuningCents);
  return { semitone, midi, frame, endFrame, timeSec: frameSec(frame), confidence: leg.confidence / 2 };
}
