import type { GlideKind } from "../Hearing";
import { mechanismOf, type OtherString } from "./mechanism";
import type { NoteMaps } from "./NoteMaps";
import type { Leg, Voice } from "./voices";

/** Glides within so many frames (0.14 s) are one move of the player. */
const SAME_MOVE_FRAMES = 6;
/** A string that is held sounds from so many frames before the glide to so many after it. */
const BEFORE = 4;
const AFTER = 5;
/** Mean of the frame map from which a string sounds. Set here. */
const SOUNDS_FROM = 0.4;
/** Partials of a glide glide with it: what moves alike at these intervals above may be only a ghost. */
const PARTIALS_AT = [12, 19, 24, 28, 31];
const GHOST_SHARE = 0.3;
/** Strings of one stroke are picked within so many frames (0.1 s). Those of another count less: players stop strings. Set here. */
const SAME_STROKE_FRAMES = 4;
const OTHER_STROKE_SHARE = 0.6;

/** The kind of every glide: by what the learned ear says of it and by what the other strings do at the same time. */
export function glideKinds(maps: NoteMaps, voices: readonly Voice[]): Map<Leg, GlideKind> {
  const kinds = new Map<Leg, GlideKind>();
  for (const voice of voices) {
    voice.legs.slice(1).forEach((leg, i) => {
      const from = voice.legs[i]!;
      const others = voices.filter((other) => other !== voice);
      const moves = others.flatMap((other) => moveAt(maps, other, voice, leg));
      kinds.set(leg, mechanismOf(leg.midi - from.midi, moves, maps.pedalAt(leg.frame, leg.semitone)));
    });
  }
  return kinds;
}

/** What another string does about a glide; nothing where it does not sound on both sides of it. */
function moveAt(maps: NoteMaps, other: Voice, voice: Voice, glide: Leg): OtherString[] {
  const { legs } = other;
  const { frame } = glide;
  const from = voice.legs[voice.legs.indexOf(glide) - 1]!;
  const sameStroke = Math.abs(legs[0]!.frame - voice.legs[0]!.frame) <= SAME_STROKE_FRAMES;
  const steel = sameStroke ? other.steel : other.steel * OTHER_STROKE_SHARE;
  for (let i = 1; i < legs.length; i++) {
    if (Math.abs(legs[i]!.frame - frame) > SAME_MOVE_FRAMES) continue;
    const ghost = PARTIALS_AT.includes(legs[i - 1]!.semitone - from.semitone);
    return [{ interval: legs[i]!.midi - legs[i - 1]!.midi, steel: ghost ? steel * GHOST_SHARE : steel }];
  }
  const sounding = legs.find((leg) => leg.frame <= frame - BEFORE && leg.endFrame >= frame - BEFORE);
  if (!sounding || sounding.semitone === glide.semitone || sounding.semitone === from.semitone) return [];
  const before = maps.mean("frame", frame - BEFORE, frame, sounding.semitone);
  const after = maps.mean("frame", frame + 2, frame + AFTER, sounding.semitone);
  return Math.min(before, after) >= SOUNDS_FROM ? [{ interval: 0, steel }] : [];
}
