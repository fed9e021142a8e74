import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import basicPitch from "@spotify/basic-pitch";
import * as tf from "@tensorflow/tfjs";
import { setThreadsCount } from "@tensorflow/tfjs-backend-wasm";
import type { ScoredNote } from "@/lib/scoring/scoredNote";

const { BasicPitch, noteFramesToTime, outputToNotesPoly } = basicPitch;

/** The rate that it takes, in mono. */
export const TRANSCRIBER_RATE_HZ = 22_050;

/** Where it takes a beginning, where it takes a note to sound on, and how many frames (256 samples) a note has at least. */
export interface TranscriberSetting {
  onset: number;
  frame: number;
  fewestFrames: number;
}

/** What its functions take where nothing is said (`outputToNotesPoly`). */
export const USUAL_SETTING: TranscriberSetting = { onset: 0.5, frame: 0.3, fewestFrames: 5 };
/** The same but for the shortest note, which its sibling in Python sets to 127.7 ms (`minimum_note_length`). */
export const SIBLINGS_SETTING: TranscriberSetting = { ...USUAL_SETTING, fewestFrames: 11 };

/** How likely each of 88 semitones sounds, and begins, in each frame. */
export interface Transcription {
  frames: number[][];
  onsets: number[][];
}

/** Its windows are cut on the plain backend: the one of WebAssembly cannot fill what has no type. */
class Windowed extends BasicPitch {
  override async prepareData(samples: Float32Array) {
    await tf.setBackend("cpu");
    try {
      return await super.prepareData(samples);
    } finally {
      await tf.setBackend("wasm");
    }
  }
}

/**
 * A general transcriber of polyphonic music, to measure beside: basic-pitch (R. M. Bittner et al., "A lightweight
 * instrument-agnostic model for polyphonic note transcription and multipitch estimation", ICASSP 2022) with the
 * weights of its package, on TensorFlow.js in WebAssembly with one thread.
 */
export class Transcriber {
  private constructor(private readonly model: Windowed) {}

  static async open(): Promise<Transcriber> {
    tf.enableProdMode();
    setThreadsCount(1);
    await tf.setBackend("wasm");
    const entry = createRequire(import.meta.url).resolve("@spotify/basic-pitch");
    const folder = path.resolve(path.dirname(entry), "../model");
    const { weightsManifest, ...artifacts } = JSON.parse(
      await readFile(path.join(folder, "model.json"), "utf8"),
    ) as tf.io.ModelJSON;
    const files = weightsManifest.flatMap(({ paths }) => paths);
    const bytes = Buffer.concat(await Promise.all(files.map((file) => readFile(path.join(folder, file)))));
    const weightData = new Uint8Array(bytes).buffer;
    const weightSpecs = weightsManifest.flatMap(({ weights }) => weights);
    const load = async () => ({ ...artifacts, weightSpecs, weightData });
    return new Transcriber(new Windowed(tf.loadGraphModel({ load })));
  }

  /** @param samples mono, at {@link TRANSCRIBER_RATE_HZ} */
  async transcribe(samples: Float32Array): Promise<Transcription> {
    const heard: Transcription = { frames: [], onsets: [] };
    // It gives none of its tensors back.
    tf.engine().startScope();
    try {
      const take = (frames: number[][], onsets: number[][]) => {
        heard.frames.push(...frames);
        heard.onsets.push(...onsets);
      };
      await this.model.evaluateModel(samples, take, () => {});
    } finally {
      tf.engine().endScope();
    }
    return heard;
  }
}

/** The notes of a transcription, at absolute pitch; it does not tell whose they are, nor of glides. */
export function notesOf(
  { frames, onsets }: Transcription,
  { onset, frame, fewestFrames }: TranscriberSetting,
): ScoredNote[] {
  const events = outputToNotesPoly(frames, onsets, onset, frame, fewestFrames);
  return noteFramesToTime(events).map(({ startTimeSeconds: startSec, durationSeconds, pitchMidi: midi }) => ({
    startSec,
    endSec: startSec + durationSeconds,
    midi,
  }));
}
