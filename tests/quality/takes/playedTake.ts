import { rms } from "@/lib/dsp/rms";
import type { TakeStroke } from "@/lib/fit/takes/TakeStroke";
import { renderBass } from "@/lib/synth/bass";
import { renderDrums } from "@/lib/synth/drums";
import { answerOfRoom } from "@/lib/synth/room";
import { seededNoise } from "@/lib/synth/seededNoise";
import type { SteelNote } from "@/lib/synth/steelPluck";
import { renderSteel } from "@/lib/synth/steelVoice";
import { renderStrums } from "@/lib/synth/strum";
import { Draws } from "./inventedStrokes";

export const TAKE_RATE_HZ = 44_100;

/** What goes wrong in one stroke. */
export type Slip =
  | { kind: "wrong"; at: number; note: number; by: number }
  | { kind: "leftOut"; at: number }
  /** One note of several. */
  | { kind: "thinner"; at: number; note: number }
  | { kind: "thicker"; at: number; midi: number }
  /** Before the stroke, as a share of the way from the one before. */
  | { kind: "besides"; at: number; share: number; midi: number }
  | { kind: "noGlide"; at: number }
  | { kind: "late"; at: number; bySec: number };

export interface Playing {
  seed: number;
  /** Standard deviation of the hands. */
  jitterSec?: number;
  /** The whole take. */
  lateSec?: number;
  speed?: number;
  tuningCents?: number;
  slips?: readonly Slip[];
  /** Root-mean-square levels beside the player's own, dB; none where left out. */
  noiseDb?: number;
  bleedDb?: number;
  /** Answer of the room beside the player's own sound, 0 for none. */
  room?: number;
}

/** A take of strokes as a person might play it, from the record's second 0 on, and how long it is. */
export function playedTake(
  strokes: readonly TakeStroke[],
  {
    seed,
    jitterSec = 0.015,
    lateSec = 0,
    speed = 1,
    tuningCents = 0,
    slips = [],
    noiseDb,
    bleedDb,
    room = 0,
  }: Playing,
): { samples: Float32Array; durationSec: number } {
  const draws = new Draws(seed + 1000);
  const slip = <K extends Slip["kind"]>(kind: K, at: number) =>
    slips.find((each) => each.kind === kind && each.at === at) as Extract<Slip, { kind: K }> | undefined;
  const notes: SteelNote[] = [];
  const durationSec = Math.max(...strokes.flatMap((s) => s.notes.map((n) => n.endSec))) / speed + 1;
  const onTake = (sec: number, off: number) => sec / speed + lateSec + off;
  const offs = strokes.map((_, at) => {
    const off = jitterSec * Math.max(-2.2, Math.min(2.2, draws.normal()));
    return off + (slip("late", at)?.bySec ?? 0);
  });
  strokes.forEach((stroke, at) => {
    const level = 0.5 * 10 ** ((draws.next() * 8 - 6) / 20);
    const off = offs[at]!;
    const besides = slip("besides", at);
    if (besides && at > 0) {
      const fromSec = onTake(strokes[at - 1]!.startSec, offs[at - 1]!);
      const toSec = onTake(stroke.startSec, off);
      const startSec = fromSec + besides.share * (toSec - fromSec);
      notes.push(steelNote(besides.midi, startSec, toSec, level));
    }
    if (slip("leftOut", at)) return;
    const wrong = slip("wrong", at);
    stroke.notes.forEach((note, index) => {
      if (slip("thinner", at)?.note === index) return;
      const by = wrong?.note === index ? wrong.by : 0;
      const rake = index * draws.next() * 0.012;
      const startSec = onTake(stroke.startSec, off + rake);
      // The next stroke stops the strings when it is really played.
      const endSec = onTake(note.endSec, off);
      const pitch = [{ timeSec: startSec, midi: note.midi + by }];
      if (!slip("noGlide", at))
        for (const glide of note.glides) {
          const glideOff = off + 0.4 * jitterSec * draws.normal();
          pitch.push(
            { timeSec: onTake(glide.startSec, glideOff), midi: pitch.at(-1)!.midi },
            {
              timeSec: onTake(glide.startSec, glideOff) + glide.endSec - glide.startSec,
              midi: glide.toMidi + by,
            },
          );
        }
      const isShaken = endSec - startSec > 0.7;
      notes.push({
        startSec,
        endSec: Math.max(endSec, startSec + 0.08),
        pitch,
        vibrato: isShaken ? { startSec: startSec + 0.35, rateHz: 5.6, depthCents: 9 } : null,
        level,
        swellSec: 0,
        ending: "palm",
      });
    });
    const thicker = slip("thicker", at);
    if (thicker)
      notes.push(
        steelNote(thicker.midi, onTake(stroke.startSec, off), onTake(stroke.notes[0]!.endSec, off), level),
      );
  });
  const samples = renderSteel(notes, durationSec, TAKE_RATE_HZ, seededNoise(seed + 5), tuningCents);
  if (room > 0) {
    const answer = answerOfRoom(samples, TAKE_RATE_HZ, 0.4, 0);
    for (let i = 0; i < samples.length; i++) samples[i]! += room * answer[i]!;
  }
  const own = rms(samples);
  if (noiseDb !== undefined) addAt(samples, hiss(samples.length, seed), own, noiseDb);
  if (bleedDb !== undefined) addAt(samples, recordOf(strokes, durationSec, speed, seed), own, bleedDb);
  return { samples, durationSec };
}

function steelNote(midi: number, startSec: number, endSec: number, level: number): SteelNote {
  return {
    startSec,
    endSec: Math.max(endSec, startSec + 0.1),
    pitch: [{ timeSec: startSec, midi }],
    vibrato: null,
    level,
    swellSec: 0,
    ending: "palm",
  };
}

/** The record as it leaks out of a headphone: the part as it stands there, bass, strums and drums on its beats. */
function recordOf(
  strokes: readonly TakeStroke[],
  durationSec: number,
  speed: number,
  seed: number,
): Float32Array {
  const steel = strokes.flatMap(({ startSec, notes }) =>
    notes.map(({ midi, endSec, glides }): SteelNote => {
      const pitch = [{ timeSec: startSec / speed, midi }];
      for (const glide of glides)
        pitch.push(
          { timeSec: glide.startSec / speed, midi: pitch.at(-1)!.midi },
          { timeSec: glide.endSec / speed, midi: glide.toMidi },
        );
      return { ...steelNote(midi, startSec / speed, endSec / speed, 0.5), pitch };
    }),
  );
  const out = renderSteel(steel, durationSec, TAKE_RATE_HZ, seededNoise(seed + 6));
  const beatSec = 0.55 / speed;
  const beats = Array.from({ length: Math.floor(durationSec / beatSec) }, (_, i) => i * beatSec);
  const root = 36 + (seed % 7);
  const others = [
    renderBass(
      beats
        .filter((_, i) => i % 2 === 0)
        .map((at) => ({ startSec: at, endSec: at + beatSec, midi: root, level: 0.5 })),
      durationSec,
      TAKE_RATE_HZ,
    ),
    renderStrums(
      beats
        .filter((_, i) => i % 2 === 1)
        .map((at) => ({
          startSec: at,
          endSec: at + beatSec * 0.8,
          midis: [root + 12, root + 19, root + 24, root + 28],
          stroke: "down" as const,
          level: 0.5,
        })),
      durationSec,
      TAKE_RATE_HZ,
    ),
    renderDrums(
      beats.flatMap((at, i) => [
        { startSec: at, drum: i % 2 === 0 ? ("kick" as const) : ("snare" as const), level: 0.5 },
        { startSec: at + beatSec / 2, drum: "hat" as const, level: 0.3 },
      ]),
      durationSec,
      TAKE_RATE_HZ,
      seededNoise(seed + 7),
    ),
  ];
  for (const other of others) for (let i = 0; i < out.length; i++) out[i]! += other[i]!;
  return out;
}

/** Pink-ish noise of a room and its machines: white noise through a one-pole low-pass at 1 kHz, with some white left. */
function hiss(length: number, seed: number): Float32Array {
  const noise = seededNoise(seed + 8);
  const keep = 1 - Math.exp((-2 * Math.PI * 1000) / TAKE_RATE_HZ);
  let low = 0;
  return Float32Array.from({ length }, () => {
    const white = noise();
    low += (white - low) * keep;
    return low + 0.1 * white;
  });
}

function addAt(into: Float32Array, other: Float32Array, own: number, db: number): void {
  const gain = (own * 10 ** (db / 20)) / rms(other);
  for (let i = 0; i < into.length; i++) into[i]! += gain * other[i]!;
}
