import type { Stereo } from "./RecordSamples";

/**
 * How alike two stretches of sound are, as a correlation: 1 the same, 0 nothing in common; opposite ones count as 0.
 */
export function likeness(first: Stereo, second: Stereo, count: number): number {
  let [both, ofFirst, ofSecond] = [0, 0, 0];
  for (let channel = 0; channel < 2; channel += 1) {
    const [a, b] = [first[channel]!, second[channel]!];
    for (let index = 0; index < count; index += 1) {
      both += a[index]! * b[index]!;
      ofFirst += a[index]! ** 2;
      ofSecond += b[index]! ** 2;
    }
  }
  const power = Math.sqrt(ofFirst * ofSecond);
  return power > 0 ? Math.min(1, Math.max(0, both / power)) : 0;
}

/**
 * Gains of what ends and of what begins, with which the power of the two together stays what it was. Sounds that have
 * nothing in common cross by sine and cosine (equal power). Those that are alike would swell by up to 3 dB so, and cross
 * by the more straight a line the more alike they are: cos² + sin² + 2·likeness·cos·sin is divided out (signal-matched
 * cross-fading, after Fink, Holters and Zölzer, DAFx 2016; the reference is from memory).
 * @param way 0 at the seam's beginning to 1 at its end
 * @param alike as {@link likeness} gives it
 */
export function seamGains(way: number, alike: number): [ending: number, beginning: number] {
  const [cos, sin] = [Math.cos((way * Math.PI) / 2), Math.sin((way * Math.PI) / 2)];
  const together = Math.sqrt(1 + 2 * alike * cos * sin);
  return [cos / together, sin / together];
}
