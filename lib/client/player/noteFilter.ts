import { FADE_SEC } from "./NamedGains";
import type { Band } from "./partialBands";

/**
 * Sharpness of one of the two filters of a band. Two of them let through about half a semitone to either side less
 * 3 dB, vibrato and a string a little off included, and a neighbour four semitones away less 27 dB (response of the
 * second-order band-pass, 1 / sqrt(1 + Q² (f / f0 - f0 / f)²), squared); they ring for no more than a twentieth of a second.
 */
const SHARPNESS = 10;
/** What lies in no band is heard this faintly: about 30 dB down. */
const REST_GAIN = 0.03;
/** How fast bands follow a note. */
const FOLLOW_SEC = 0.008;

interface BandNodes {
  filters: [BiquadFilterNode, BiquadFilterNode];
  gain: GainNode;
}

/**
 * Stands between two nodes and lets everything through, until bands are given: then those, and the rest faintly.
 * Nothing is made louder than it was.
 */
export class NoteFilter {
  private readonly through: GainNode;
  /** By the id of the band. */
  private readonly bands = new Map<number, BandNodes>();

  constructor(
    private readonly context: AudioContext,
    private readonly from: AudioNode,
    private readonly to: AudioNode,
  ) {
    this.through = new GainNode(context);
    from.connect(this.through).connect(to);
  }

  /** Lets only these bands through; called again as they move, come and go. */
  letThrough(bands: readonly Band[]): void {
    const { currentTime } = this.context;
    this.through.gain.setTargetAtTime(REST_GAIN, currentTime, FADE_SEC);
    const wanted = new Set(bands.map(({ id }) => id));
    for (const id of this.bands.keys()) if (!wanted.has(id)) this.dropBand(id);
    for (const band of bands) {
      const nodes = this.bands.get(band.id) ?? this.makeBand(band);
      for (const filter of nodes.filters)
        filter.frequency.setTargetAtTime(band.frequencyHz, currentTime, FOLLOW_SEC);
      nodes.gain.gain.setTargetAtTime(band.gain, currentTime, FADE_SEC);
    }
  }

  letAllThrough(): void {
    for (const id of this.bands.keys()) this.dropBand(id);
    this.through.gain.setTargetAtTime(1, this.context.currentTime, FADE_SEC);
  }

  private makeBand({ id, frequencyHz }: Band): BandNodes {
    const options = { type: "bandpass", frequency: frequencyHz, Q: SHARPNESS } as const;
    const first = new BiquadFilterNode(this.context, options);
    const second = new BiquadFilterNode(this.context, options);
    const gain = new GainNode(this.context, { gain: 0 });
    this.from.connect(first).connect(second).connect(gain).connect(this.to);
    const nodes: BandNodes = { filters: [first, second], gain };
    this.bands.set(id, nodes);
    return nodes;
  }

  private dropBand(id: number): void {
    const nodes = this.bands.get(id);
    if (!nodes) return;
    this.from.disconnect(nodes.filters[0]);
    nodes.gain.disconnect();
    this.bands.delete(id);
  }
}
