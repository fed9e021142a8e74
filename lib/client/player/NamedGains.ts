import type { Seconds } from "@/lib/units/quantities";

/** How fast what is heard changes, as a time constant: without a click, and at once to the ear (local choice). */
export const FADE_SEC: Seconds = 0.015;

/** Gain nodes by name, which go to other gains together, without a click. */
export class NamedGains<Name extends string> {
  readonly nodes: Readonly<Record<Name, GainNode>>;

  /** @param atFirst the gains that they begin with */
  constructor(
    private readonly context: BaseAudioContext,
    atFirst: Readonly<Record<Name, number>>,
  ) {
    const made = Object.entries<number>(atFirst).map(([name, gain]) => [
      name,
      new GainNode(context, { gain }),
    ]);
    this.nodes = Object.fromEntries(made) as Record<Name, GainNode>;
  }

  fadeTo(gains: Readonly<Record<Name, number>>): void {
    const { currentTime } = this.context;
    for (const [name, node] of Object.entries<GainNode>(this.nodes))
      node.gain.setTargetAtTime(gains[name as Name], currentTime, FADE_SEC);
  }
}
