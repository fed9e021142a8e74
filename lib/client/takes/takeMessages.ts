/** Name under which the recorder of takes is registered with the audio thread. */
export const TAKE_PROCESSOR = "liftbook-take";
/** Where the start puts its code (lib/cli/start/bundleWorklets.ts). */
export const TAKE_URL = "/sound/take.js";

/** What came in by the microphone, as the audio thread hands it over. */
export interface CapturedChunk {
  /** Of the audio context: the frame at which the chunk begins. The record's reports count by the same frames. */
  atFrame: number;
  /** One or two channels of the same length, full scale 1. */
  channels: Float32Array<ArrayBuffer>[];
}

/** What the page tells the audio thread. */
export type CaptureMessage = { kind: "close" };
