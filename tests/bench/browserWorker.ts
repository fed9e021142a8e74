/** The body of the worker in the browser: hears the record it is given and times it by the clock on the wall. */
import * as ort from "onnxruntime-web/wasm";
import { EAR, loadLearnedEar } from "@/lib/hearing/learned/loadLearnedEar";
import { loadWeights, type WeightsManifest } from "@/lib/hearing/learned/loadWeights";
import { type OnnxRuntime, type RunnerTimes, timeRunners } from "./runners";
import { quickest, type StageTimes, timeStages } from "./stages";

/** Where the page finds what it needs, and how the record is laid out. */
export interface BrowserOrder {
  base: string;
  channelCount: number;
  sampleRateHz: number;
  runs: number;
}

export interface BrowserTimes {
  stages: StageTimes;
  runners: RunnerTimes;
}

const nowSec = (): number => performance.now() / 1_000;

async function obey({ base, channelCount, sampleRateHz, runs }: BrowserOrder): Promise<BrowserTimes> {
  const bytes = async (name: string) => (await fetch(`${base}/${name}`)).arrayBuffer();
  const samples = new Float32Array(await bytes("record"));
  const length = samples.length / channelCount;
  const channels = Array.from({ length: channelCount }, (_, c) =>
    samples.subarray(c * length, (c + 1) * length),
  );
  const manifest = (await (await fetch(`${base}/manifest`)).json()) as WeightsManifest;
  const weights = new Uint8Array(await bytes("weights"));
  const ear = loadLearnedEar({ manifest, bytes: weights });
  const stages = quickest(runs, () => timeStages(channels, sampleRateHz, ear, nowSec));
  ort.env.wasm.wasmPaths = `${base}/ort/`;
  const model = new Uint8Array(await bytes("model"));
  const runners = await timeRunners(
    loadWeights(EAR, { manifest, bytes: weights }),
    model,
    ort as unknown as OnnxRuntime,
    nowSec,
  );
  return { stages, runners };
}

self.onmessage = async ({ data }: MessageEvent<BrowserOrder>) => {
  try {
    self.postMessage({ times: await obey(data) });
  } catch (fault) {
    self.postMessage({ fault: String(fault instanceof Error ? fault.stack : fault) });
  }
};
