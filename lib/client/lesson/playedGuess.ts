import type { GuessLane } from "@/lib/lesson/GuessValue";
import { C_MAJOR, type Key } from "@/lib/theory/key";
import { nameChord } from "@/lib/theory/nameChord";
import { midiToName, spellPitchClass } from "@/lib/theory/spelling";
import { midiToPitchClass } from "@/lib/units/pitch";
import type { Midi } from "@/lib/units/quantities";

/**
 * What is typed for notes that were played in: the lowest as home, all as a chord, or by their names. Null where a lane takes
 * no notes, or they make no chord with a usual name.
 * @param home by which they are spelled; null where it is not seen
 */
export function playedGuess(midis: readonly Midi[], lane: GuessLane, home: Key | null): string | null {
  const [lowest, ...others] = [...midis].sort((a, b) => a - b);
  if (lowest === undefined) return null;
  const spelled = (midi: Midi) => spellPitchClass(midiToPitchClass(midi), home ?? C_MAJOR);
  switch (lane) {
    case "home": {
      const isMinor = others.some((midi) => midiToPitchClass(midi - lowest) === 3);
      return `${spelled(lowest)}${isMinor ? "m" : ""}`;
    }
    case "changes": {
      if (others.length === 0) return spelled(lowest);
      const names = nameChord([lowest, ...others].map(midiToPitchClass));
      const name = names.find(({ root }) => root === midiToPitchClass(lowest)) ?? names[0];
      if (!name) return null;
      const list = name.extensions.length > 0 ? `(${name.extensions.join(",")})` : "";
      return `${spelled(name.root)}:${name.quality}${list}`;
    }
    case "heard":
      return [lowest, ...others].map((midi) => midiToName(midi, home ?? C_MAJOR)).join(" ");
    case "places":
      return null;
  }
}
