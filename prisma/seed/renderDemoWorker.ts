import { parentPort } from "node:worker_threads";
import { encodeWav } from "@/lib/synth/encodeWav";
import { renderDemoRecord } from "../demo/renderDemo";

/** A thread that plays the demo's band and posts the record as the bytes of a WAV file. */
const { channels, sampleRateHz } = renderDemoRecord();
const bytes = encodeWav(channels, sampleRateHz);
parentPort?.postMessage(bytes, [bytes.buffer]);
