import { secondOfTake, type Take } from "@/lib/contracts/takes";
import type { Seconds } from "@/lib/units/quantities";
import { FADE_SEC } from "../player/NamedGains";
import type { Sounding } from "../player/Playback";
import type { TakeSamples } from "./readWav";
import type { TakeHeard } from "./takeHeard";

/** Where the take is, or will be: frame 0 would have been given out at `zeroAtSec` of the audio context. */
interface Running {
  source: AudioBufferSourceNode;
  fade: GainNode;
  zeroAtSec: Seconds;
}

/** Further off than this it is started anew. */
const OFF_SEC: Seconds = 0.004;
/** What is told to the audio thread now is done so much later. */
const AHEAD_SEC: Seconds = 0.02;
/** How fast it comes and goes. */
const EDGE_SEC: Seconds = 0.005;
const RIGHT = 1;

/**
 * Plays a take's samples so that each sounds with the second of the record that it was played to: both run by the audio
 * context's clock, so that they stay together once they are.
 */
export class TakeFollower {
  private readonly buffer: AudioBuffer;
  private readonly gain: GainNode;
  private readonly side: StereoPannerNode;
  private running: Running | null = null;

  /** @param out where it joins other sound, before level and ceiling are seen to */
  constructor(
    private readonly take: Pick<Take, "startSec" | "leadSec" | "speed" | "durationSec">,
    { channels, sampleRateHz }: TakeSamples,
    private readonly out: AudioNode,
  ) {
    const { context } = out;
    const length = Math.max(1, channels[0]?.length ?? 0);
    this.buffer = context.createBuffer(Math.max(1, channels.length), length, sampleRateHz);
    for (const [index, channel] of channels.entries()) this.buffer.copyToChannel(channel, index);
    this.gain = new GainNode(context, { gain: 0 });
    this.side = new StereoPannerNode(context);
    this.gain.connect(this.side).connect(out);
  }

  /** @param level of the record, 0 to 1 */
  setWay(heard: TakeHeard, level: number): void {
    const { currentTime } = this.out.context;
    this.gain.gain.setTargetAtTime(heard === "record" ? 0 : level, currentTime, FADE_SEC);
    this.side.pan.setTargetAtTime(heard === "both" ? RIGHT : 0, currentTime, FADE_SEC);
  }

  /** Told again and again where the record is; null where it does not sound. */
  follow(sounding: Sounding | null): void {
    if (!sounding || Math.abs(sounding.speed - this.take.speed) > 1e-6) {
      this.halt();
      return;
    }
    const zeroAtSec = sounding.atSec - secondOfTake(this.take, sounding.sec);
    if (this.running && Math.abs(this.running.zeroAtSec - zeroAtSec) <= OFF_SEC) return;
    this.halt();
    this.begin(zeroAtSec);
  }

  close(): void {
    this.halt();
    const { gain, side } = this;
    setTimeout(() => {
      gain.disconnect();
      side.disconnect();
    }, 100);
  }

  private begin(zeroAtSec: Seconds): void {
    const { context } = this.out;
    const soonSec = context.currentTime + AHEAD_SEC;
    const startAtSec = Math.max(soonSec, zeroAtSec);
    const offsetSec = startAtSec - zeroAtSec;
    if (offsetSec >= this.buffer.duration) return;
    const source = new AudioBufferSourceNode(context, { buffer: this.buffer });
    const fade = new GainNode(context, { gain: 0 });
    fade.gain.setValueAtTime(0, startAtSec);
    fade.gain.linearRampToValueAtTime(1, startAtSec + EDGE_SEC);
    source.connect(fade).connect(this.gain);
    source.start(startAtSec, offsetSec);
    this.running = { source, fade, zeroAtSec };
  }

  private halt(): void {
    const { running } = this;
    if (!running) return;
    this.running = null;
    const { currentTime } = this.out.context;
    running.fade.gain.cancelScheduledValues(currentTime);
    running.fade.gain.setTargetAtTime(0, currentTime, EDGE_SEC / 3);
    running.source.stop(currentTime + 4 * EDGE_SEC);
    running.source.onended = () => running.fade.disconnect();
  }
}
