import { BandFocus } from "./BandFocus";
import { ChannelFocus } from "./ChannelFocus";
import { endContext } from "./endContext";
import { ListenMix } from "./ListenMix";
import { NoteFilter } from "./noteFilter";

/** What the record, and all that is played beside it, passes through on its way to the ears. */
export interface OutputChain {
  readonly context: AudioContext;
  /** Where the record goes in. */
  readonly record: AudioNode;
  /** What of its channels, and which range of it, is heard. */
  readonly channels: ChannelFocus;
  readonly band: BandFocus;
  /** Where clicks go in: they pass level and ceiling, and nothing of what is done to the record. */
  readonly clicks: GainNode;
  /** Takes the record out, and nothing else, or lets it in again. */
  setMuted(isMuted: boolean): void;
  /** Stands before level and ceiling, after the filter: record, parts and band as they are listened to. */
  readonly mix: ListenMix;
  setLevel(level: number): void;
  /** Where other sound joins the record: after its level, before limiter and ceiling. */
  beside: AudioNode;
  /** Lets notes of the record through and the rest faintly. */
  filter: NoteFilter;
  /** The samples sent out last, after the ceiling. */
  readOutput(into: Float32Array<ArrayBuffer>): void;
  resume(): Promise<void>;
  close(): void;
}

/** Highest sample ever sent out, about -1 dBFS. */
export const CEILING = 0.89;
const LIMIT_AT_DB = -6;
const LIMIT_RATIO = 20;
/** Samples the level meter looks at. */
export const METER_SIZE = 2048;

/** How fast the record goes and comes. */
const MUTE_SEC = 0.01;

/**
 * Channels, range, the filter for notes, what is listened to, then level, then a limiter, then a hard ceiling. The Web Audio compressor
 * adds make-up gain of its own (0.6 of the reduction at full scale, Web Audio API, "Computing the makeup gain"); it is
 * taken off again.
 */
export function openOutputChain(): OutputChain {
  const context = new AudioContext();
  const level = new GainNode(context);
  const limiter = new DynamicsCompressorNode(context, {
    threshold: LIMIT_AT_DB,
    knee: 0,
    ratio: LIMIT_RATIO,
    attack: 0.002,
    release: 0.12,
  });
  const makeupDb = 0.6 * (-LIMIT_AT_DB + LIMIT_AT_DB / LIMIT_RATIO);
  const unmake = new GainNode(context, { gain: 10 ** (-makeupDb / 20) });
  const ceiling = new WaveShaperNode(context, { curve: ceilingCurve() });
  const meter = new AnalyserNode(context, { fftSize: METER_SIZE });
  const mix = new ListenMix(context, level);
  const muting = new GainNode(context);
  muting.connect(mix.record);
  const unfiltered = new GainNode(context);
  const filter = new NoteFilter(context, unfiltered, muting);
  const band = new BandFocus(context, unfiltered);
  const channels = new ChannelFocus(context, band.entry);
  const clicks = new GainNode(context);
  clicks.connect(level);
  level.connect(limiter).connect(unmake).connect(ceiling).connect(meter).connect(context.destination);
  return {
    context,
    record: channels.entry,
    channels,
    band,
    clicks,
    mix,
    filter,
    beside: limiter,
    setMuted: (isMuted) => muting.gain.setTargetAtTime(isMuted ? 0 : 1, context.currentTime, MUTE_SEC),
    setLevel: (value) => level.gain.setTargetAtTime(value, context.currentTime, 0.01),
    readOutput: (into) => meter.getFloatTimeDomainData(into),
    resume: () => context.resume(),
    close: () => endContext(context, meter),
  };
}

/** Straight up to the ceiling, flat beyond it; the node itself holds inputs beyond ±1 at the ends. */
function ceilingCurve(): Float32Array<ArrayBuffer> {
  const curve = new Float32Array(2049);
  for (let index = 0; index < curve.length; index++) {
    const input = (index / (curve.length - 1)) * 2 - 1;
    curve[index] = Math.min(CEILING, Math.max(-CEILING, input));
  }
  return curve;
}
