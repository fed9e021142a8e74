import { type GlideKind, STEEL_FROM } from "./HeardNote";
import { mechanismOf, type StringMove } from "./mechanism";
import type { NoteMaps } from "./NoteMaps";
import type { Leg, Voice } from "./voices";

/** Glides within so many frames (0.14 s) are one move of the player. */
const SAME_MOVE_FRAMES = 6;
/** A held string sounds on from this many frames before the glide to this many after it. */
const HELD_BEFORE = 4;
const HELD_AFTER = 8;
/** Mean of the frame map from which a string counts as held. Set here. */
const HELD_FROM = 0.5;

/** The kind of every glide: by what the steel's other strings do at the same time. */
export function glideKinds(maps: NoteMaps, voices: readonly Voice[]): Map<Leg, GlideKind> {
  const kinds = new Map<Leg, GlideKind>();
  const steel = voices.filter((voice) => voice.steel >= STEEL_FROM);
  for (const voice of voices) {
    voice.legs.slice(1).forEach((leg) => {
      const others = steel.filter((other) => other !== voice);
      const own: StringMove = { interval: leg.midi - voice.legs[voice.legs.indexOf(leg) - 1]!.midi };
      kinds.set(leg, mechanismOf([own, ...others.flatMap((other) => moveAt(maps, other, leg))]));
    });
  }
  return kinds;
}

/** What another string does about a glide; nothing where it does not sound on both sides of it. */
function moveAt(maps: NoteMaps, voice: Voice, glide: Leg): StringMove[] {
  for (let i = 1; i < voice.legs.length; i++) {
    const leg = voice.legs[i]!;
    if (Math.abs(leg.frame - glide.frame) <= SAME_MOVE_FRAMES) {
      return [{ interval: leg.midi - voice.legs[i - 1]!.midi }];
    }
  }
  const { frame } = glide;
  const held = voice.legs.find(
    (leg) => leg.frame <= frame - HELD_BEFORE && leg.endFrame >= frame + HELD_BEFORE,
  );
  if (!held || held.semitone === glide.semitone) return [];
  const after = maps.mean("frame", frame + 2, frame + HELD_AFTER, held.semitone);
  const before = maps.mean("frame", frame - HELD_BEFORE, frame, held.semitone);
  return Math.min(before, after) >= HELD_FROM ? [{ interval: 0 }] : [];
}
