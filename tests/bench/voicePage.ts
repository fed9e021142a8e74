/** The page's side of the strings' bench: what they cost in this browser, and how they keep with a record that plays. */
import { Player } from "@/lib/client/player/Player";
import { SteelPlayer } from "@/lib/client/sound/SteelPlayer";
import { steelPluck } from "@/lib/synth/steelPluck";
import { timeVoices, type VoiceTimes } from "./voices";

/** A record of clicks, the strings' picks at the same times, and how they are played. */
export interface TimingOrder {
  recordUrl: string;
  durationSec: number;
  clicksSec: readonly number[];
  speed: number;
  loop: { startSec: number; endSec: number } | null;
  lengthSec: number;
  /** Whether the record is in memory before it plays; otherwise the media element plays it. */
  isFromMemory: boolean;
}

/** When clicks and picks went out to the ears, in seconds from the start. */
export interface Heard {
  clicksSec: number[];
  picksSec: number[];
}

const nowSec = (): number => performance.now() / 1_000;

const RECORDER = `registerProcessor("recorder", class extends AudioWorkletProcessor {
  process([input]) {
    if (input[0]) this.port.postMessage([input[0].slice(), (input[1] ?? input[0]).slice()]);
    return true;
  }
});`;

/** Where sound begins after silence. */
function onsets(blocks: readonly Float32Array[], above: number, rateHz: number): number[] {
  const found: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  let at = 0;
  for (const block of blocks) {
    for (const sample of block) {
      if (Math.abs(sample) > above) {
        if (at - last > 0.12 * rateHz) found.push(at / rateHz);
        last = at;
      }
      at += 1;
    }
  }
  return found;
}

/** A stretched click begins faintly before its time: it is there once it reaches this share of its height. */
const CLICK_SHARE = 0.3;

function highest(blocks: readonly Float32Array[]): number {
  return blocks.reduce((most, block) => block.reduce((high, x) => Math.max(high, Math.abs(x)), most), 0);
}

async function hearTogether(order: TimingOrder): Promise<Heard> {
  const player = new Player(order.recordUrl, order.durationSec);
  const steel = new SteelPlayer(player);
  const detach = steel.attach();
  const { context } = player.openOutput();
  await context.audioWorklet.addModule(
    URL.createObjectURL(new Blob([RECORDER], { type: "text/javascript" })),
  );
  const recorder = new AudioWorkletNode(context, "recorder");
  const left: Float32Array[] = [];
  const right: Float32Array[] = [];
  recorder.port.onmessage = ({ data }: MessageEvent<[Float32Array, Float32Array]>) => {
    left.push(data[0]);
    right.push(data[1]);
  };
  tapInto(recorder, context);
  const part = order.clicksSec.map((startSec) => {
    const pitch = [{ timeSec: startSec, midi: 93 }];
    const note = { startSec, endSec: startSec + 0.06, pitch, vibrato: null, level: 0.9, swellSec: 0 };
    return { id: String(startSec), timbre: "steel" as const, pluck: steelPluck(note, 0, 1) };
  });
  steel.setScore({ parts: [{ id: "1", level: 1, notes: () => part }], band: () => [], droneAt: () => [] });
  player.setSpeed(order.speed);
  await steel.setListen("both");
  while (order.isFromMemory && player.now().memory.kind !== "ready")
    await new Promise((resolve) => setTimeout(resolve, 50));
  // How the browser stretches a slowed record is measured first, while nothing is heard.
  await new Promise((resolve) => setTimeout(resolve, order.speed === 1 ? 200 : 2_500 + 1_300 / order.speed));
  if (order.loop) player.setLoop(order.loop);
  left.length = 0;
  right.length = 0;
  await player.play();
  await new Promise((resolve) => setTimeout(resolve, 1_000 * order.lengthSec));
  player.pause();
  const heard = {
    clicksSec: onsets(left, CLICK_SHARE * highest(left), context.sampleRate),
    picksSec: onsets(right, 0.02, context.sampleRate),
  };
  detach();
  player.close();
  return heard;
}

/** Everything that the page sends to the ears from now on goes through the recorder too. */
function tapInto(recorder: AudioNode, context: AudioContext): void {
  const chain = outgoing.get(context);
  chain
    ?.connect(recorder)
    .connect(new GainNode(context, { gain: 0 }))
    .connect(context.destination);
}

/** The last node before the ears, by its context. */
const outgoing = new Map<BaseAudioContext, AudioNode>();
const connect = AudioNode.prototype.connect as (
  this: AudioNode,
  to: AudioNode,
  ...rest: number[]
) => AudioNode;
Object.assign(AudioNode.prototype, {
  connect(this: AudioNode, to: AudioNode, ...rest: number[]) {
    if (to instanceof AudioDestinationNode && !(this instanceof GainNode)) outgoing.set(this.context, this);
    return connect.call(this, to, ...rest);
  },
});

Object.assign(window, { hearTogether, timeVoices: (): VoiceTimes => timeVoices(nowSec) });
