import type { Hertz, Seconds } from "@/lib/units/quantities";
import { answerOfRoom } from "./room";

/** One player's dry sound and their place on the stand. */
export interface Track {
  samples: Float32Array;
  gain: number;
  /** -1 left to 1 right. */
  pan: number;
  /** Share sent to the room, 0 to 1. */
  room: number;
}

const ROOM_DECAY_SEC: Seconds = 0.9;
const RIGHT_EAR_SPREAD_SEC: Seconds = 0.0011;
/** Peaks stand here before they are bent. */
const DRIVEN_PEAK = 1.1;
/** Below this a sample passes unchanged. */
const KNEE = 0.7;

/**
 * Mixes tracks of the same rate to left and right: equal-power pan, a shared room, then levelled so that no
 * sample passes 1.
 */
export function mix(tracks: readonly Track[], sampleRateHz: Hertz): [Float32Array, Float32Array] {
  const length = Math.max(0, ...tracks.map((track) => track.samples.length));
  const left = new Float32Array(length);
  const right = new Float32Array(length);
  const sent = new Float32Array(length);
  for (const { samples, gain, pan, room } of tracks) {
    const angle = ((pan + 1) * Math.PI) / 4;
    const toLeft = gain * Math.cos(angle);
    const toRight = gain * Math.sin(angle);
    for (let index = 0; index < samples.length; index += 1) {
      const sample = samples[index]!;
      left[index]! += sample * toLeft;
      right[index]! += sample * toRight;
      sent[index]! += sample * gain * room;
    }
  }
  add(left, answerOfRoom(sent, sampleRateHz, ROOM_DECAY_SEC, 0));
  add(right, answerOfRoom(sent, sampleRateHz, ROOM_DECAY_SEC, RIGHT_EAR_SPREAD_SEC));
  level([left, right]);
  return [left, right];
}

/** Scales channels alike to one peak, then bends the highest peaks so that none reaches 1. In place. */
export function level(channels: readonly Float32Array[]): void {
  let peak = 0;
  for (const channel of channels) for (const sample of channel) peak = Math.max(peak, Math.abs(sample));
  const gain = peak === 0 ? 1 : DRIVEN_PEAK / peak;
  for (const channel of channels) {
    for (let index = 0; index < channel.length; index += 1) channel[index] = bend(channel[index]! * gain);
  }
}

function bend(sample: number): number {
  const size = Math.abs(sample);
  if (size <= KNEE) return sample;
  return Math.sign(sample) * (KNEE + (1 - KNEE) * Math.tanh((size - KNEE) / (1 - KNEE)));
}

function add(to: Float32Array, from: Float32Array): void {
  for (let index = 0; index < to.length; index += 1) to[index]! += from[index]!;
}
