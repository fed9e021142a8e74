import type { Spot } from "./Spot";

/**
 * How notes were heard to come out of those before while they rang: one voice gliding against a held one
 * (a pedal or lever), or all alike (the bar).
 */
export type Glide = "oblique" | "parallel";

/**
 * What hands and feet do to strings that ring on from one place to another. `press`: the bar stays, and a pedal or
 * lever goes on; `release`: one is let off; `change`: some on, some off. `slide`: the bar moves and every string with
 * it; `slide with release` (`press`, `change`): feet or knees move on the way, so that the strings move by different
 * steps or one of them not at all, as from A down at 12 to nothing at 14 on string 5 (playpedalsteel.com, left foot
 * technique). `stay`: nothing that rings is moved.
 */
export type GlideAct =
  | "stay"
  | "press"
  | "release"
  | "change"
  | "slide"
  | "slide with press"
  | "slide with release"
  | "slide with change";

/**
 * Strings that sound on both sides tell; null where neither place holds all strings of the other, and where the bar comes to
 * lie at another slant, which moves each string by a step of its own.
 */
export function glideActOf(from: Spot, to: Spot): GlideAct | null {
  if (from.slant?.family !== to.slant?.family || from.slant?.span !== to.slant?.span) return null;
  const [few, many] =
    from.hold.strings.length <= to.hold.strings.length ? [from.hold, to.hold] : [to.hold, from.hold];
  let isPulled = false;
  for (let at = 0; at < few.strings.length; at += 1) {
    const there = many.strings.indexOf(few.strings[at]!);
    if (there < 0) return null;
    if (few.offsets[at] !== many.offsets[there]) isPulled = true;
  }
  const isMoved = from.fret !== to.fret;
  if (!isPulled) return isMoved ? "slide" : "stay";
  const feet = feetAct(from, to);
  return isMoved ? `slide with ${feet}` : feet;
}

function feetAct(from: Spot, to: Spot): "press" | "release" | "change" {
  const [before, now] = [from.hold.set.depths, to.hold.set.depths];
  const isOn = now.some((depth, change) => depth > before[change]!);
  const isOff = now.some((depth, change) => depth < before[change]!);
  return isOn && isOff ? "change" : isOn ? "press" : "release";
}
