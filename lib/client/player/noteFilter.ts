import type { Band } from "./partialBands";

/**
 * Sharpness of one of the two filters of a band. Two of them let through about half a semitone to either side less
 * 3 dB, vibrato and a string a little off included, and a neighbour four semitones away less 27 dB (response of the
 * second-order band-pass, 1 / sqrt(1 + Q² (f / f0 - f0 / f)²), squared); they ring for no more than a twentieth of a second.
 */
const SHARPNESS = 10;
/** What lies in no band is heard this faintly: about 30 dB down. */
const REST_GAIN = 0.03;
/** How fast bands follow a note, and what is let through changes. */
const FOLLOW_SEC = 0.008;
const FADE_SEC = 0.015;

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
  private bands: BandNodes[] = [];

  constructor(
    private readonly context: AudioContext,
    private readonly from: AudioNode,
    private readonly to: AudioNode,
  ) {
    this.through = new GainNode(context);
    from.connect(this.through).connect(to);
  }

  /** Lets only these bands through; called again as they move. */
  letThrough(bands: readonly Band[]): void {
    const { currentTime } = this.context;
    if (bands.length !== this.bands.length) {
      this.dropBands();
      this.bands = bands.map((band) => this.makeBand(band));
    }
    this.through.gain.setTargetAtTime(REST_GAIN, currentTime, FADE_SEC);
    bands.forEach(({ frequencyHz, gain }, index) => {
      const nodes = this.bands[index]!;
      for (const filter of nodes.filters)
        filter.frequency.setTargetAtTime(frequencyHz, currentTime, FOLLOW_SEC);
      nodes.gain.gain.setTargetAtTime(gain, currentTime, FADE_SEC);
    });
  }

  letAllThrough(): void {
    this.dropBands();
    this.through.gain.setTargetAtTime(1, this.context.currentTime, FADE_SEC);
  }

  private makeBand({ frequencyHz }: Band): BandNodes {
    const options = { type: "bandpass", frequency: frequencyHz, Q: SHARPNESS } as const;
    const first = new BiquadFilterNode(this.context, options);
    const second = new BiquadFilterNode(this.context, options);
    const gain = new GainNode(this.context, { gain: 0 });
    this.from.connect(first).connect(second).connect(gain).connect(this.to);
    return { filters: [first, second], gain };
  }

  private dropBands(): void {
    for (const { filters, gain } of this.bands) {
      this.from.disconnect(filters[0]);
      gain.disconnect();
    }
    this.bands = [];
  }
}
