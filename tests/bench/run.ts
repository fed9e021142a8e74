/**
 * `npm run -s bench`: how long the heavy work takes, each as a ratio to a reference run beside it on the same machine
 * at the same moment, since machines differ and are noisy. Nothing is asserted here. `npm run -s bench -- short`
 * leaves out the long records, the browser and the general transcriber; `npm run -s bench -- transcriber` measures
 * our notes beside that one only, `npm run -s bench -- passage` a passage that is heard at once in the browser,
 * `-- fit` a guess held against the record, `-- voice` strings that sound, `-- places` how long parts take to be laid
 * out on the neck, and the first one in the browser, and `-- page` how heavy and quick the song page is (`minutes=20 loop=1 visits=8`: how long the song
 * is, how long it loops, how often the page is left).
 */
import { readFile } from "node:fs/promises";
import path from "node:path";
import * as ort from "onnxruntime-web";
import { EAR, loadLearnedEar } from "@/lib/hearing/learned/loadLearnedEar";
import { loadWeights, type WeightsManifest } from "@/lib/hearing/learned/loadWeights";
import { RecordIntake } from "@/lib/hearing/RecordIntake";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { renderDemoRecord } from "@/prisma/demo/renderDemo";
import { earModel } from "../onnx/earModel";
import { timeInChromium } from "./chromium";
import { cpuSec } from "./cpuSec";
import { tellFirstPart } from "./firstPart";
import { tellFit } from "./fit";
import { timeGrowth } from "./growth";
import { type NotesTimes, timeNotes } from "./notes";
import { tellPassageAtOnce } from "./passageAtOnce";
import { tellPlaces } from "./places";
import { transforms } from "./reference";
import { type OnnxRuntime, type RunnerTimes, timeRunners } from "./runners";
import { quickest, type StageTimes, timeStages } from "./stages";

const RUNS = 3;
const isShort = process.argv.includes("short");
if (process.argv.includes("places")) {
  tellPlaces(RUNS);
  await tellFirstPart(RUNS);
  process.exit(0);
}
if (process.argv.includes("transcriber")) {
  await (await import("./notesBeside")).tellNotesBeside();
  process.exit(0);
}
if (process.argv.includes("page")) {
  const given = (name: string, usual: number) =>
    Number(process.argv.find((each) => each.startsWith(`${name}=`))?.slice(name.length + 1) ?? usual);
  const order = { minutes: given("minutes", 20), loopMinutes: given("loop", 1), visits: given("visits", 8) };
  await (await import("./songPage/tellSongPage")).tellSongPage(order);
  process.exit(0);
}
if (process.argv.includes("voice")) {
  await (await import("./voicesBench")).tellVoices();
  process.exit(0);
}
const WEIGHTS = path.resolve(import.meta.dirname, "../../lib/hearing/learned/weights");

function tellStages(
  where: string,
  durationSec: number,
  { stages, totalSec, referenceSec }: StageTimes,
): void {
  const perMinute = 60 / durationSec;
  const ratio = (sec: number) => (sec / referenceSec).toFixed(2);
  console.log(
    `${where}: ${(perMinute * totalSec).toFixed(2)} s a minute, ${ratio(totalSec)} times the transforms of the same sound (${(perMinute * referenceSec).toFixed(2)} s)`,
  );
  for (const [stage, sec] of Object.entries(stages))
    console.log(`  ${stage.padEnd(10)} ${(perMinute * sec).toFixed(3)} s a minute, ${ratio(sec)}`);
}

function tellRunners(where: string, { ownSec, onnxSec }: RunnerTimes): void {
  console.log(
    `${where}, the network alone on one thread: our kernels ${ownSec.toFixed(2)} s a minute, onnxruntime-web ${onnxSec.toFixed(2)}, ratio ${(onnxSec / ownSec).toFixed(2)}`,
  );
}

function tellNotes(durationSec: number, { wholeSec, featuresSec, networkSec }: NotesTimes): void {
  const [whole, features, network] = [wholeSec, featuresSec, networkSec].map((sec) =>
    ((60 * sec) / durationSec).toFixed(2),
  );
  console.log(
    `hearing the notes alone in Node, decoding not counted: ${whole} s a minute; of these what the network hears ${features}, the network ${network}`,
  );
}

const manifestFile = await readFile(path.join(WEIGHTS, "ear.json"));
const weightsFile = await readFile(path.join(WEIGHTS, "ear.bin"));
const manifest = JSON.parse(manifestFile.toString("utf8")) as WeightsManifest;
const weights = loadWeights(EAR, { manifest, bytes: weightsFile });
const model = earModel(weights);
const { channels, sampleRateHz } = renderDemoRecord();
const durationSec = channels[0]!.length / sampleRateHz;
if (process.argv.includes("passage")) {
  await tellPassageAtOnce(channels, sampleRateHz);
  process.exit(0);
}
if (process.argv.includes("fit")) {
  await tellFit(channels, sampleRateHz, true);
  process.exit(0);
}

for (const { who, ear } of [
  { who: "both ears", ear: loadLearnedEar({ manifest, bytes: weightsFile }) },
  { who: "the signal's ear alone", ear: null },
]) {
  const times = quickest(RUNS, () => timeStages(channels, sampleRateHz, ear, cpuSec));
  tellStages(`hearing ${durationSec.toFixed(0)} s of stereo in Node, ${who}`, durationSec, times);
}
const { notesEar } = await readLearnedEars();
if (notesEar) {
  const intake = new RecordIntake(sampleRateHz);
  intake.take(channels, channels[0]!.length);
  const record = intake.finish();
  const times = Array.from({ length: RUNS }, () => timeNotes(record, notesEar, cpuSec));
  tellNotes(durationSec, times.toSorted((a, b) => a.wholeSec - b.wholeSec)[0]!);
}
await tellFit(channels, sampleRateHz, false);
tellRunners("Node", await timeRunners(weights, model, ort as unknown as OnnxRuntime, cpuSec));

if (!isShort) {
  try {
    const files = { channels, sampleRateHz, manifest: manifestFile, weights: weightsFile, model };
    const { stages, runners } = await timeInChromium(files, RUNS);
    tellStages("hearing in a worker of Chromium, both ears, by the clock on the wall", durationSec, stages);
    tellRunners("Chromium", runners);
    await tellPassageAtOnce(channels, sampleRateHz);
  } catch (fault) {
    console.log(`Chromium was not measured: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
  for (const { what, minutes, cpuSec: sec, growthMb } of await timeGrowth(channels, sampleRateHz)) {
    const start = cpuSec();
    transforms(60);
    const referenceSec = cpuSec() - start;
    console.log(
      `a record of ${minutes} min as ${what}, decoding and the thread's start included: ${(sec / minutes).toFixed(2)} s a minute, ${(sec / minutes / referenceSec).toFixed(2)} times the transforms; memory grows by ${growthMb.toFixed(0)} MB at most`,
    );
  }
}

// Loaded only now: what it brings along must not weigh on what is timed before.
if (!isShort) await (await import("./notesBeside")).tellNotesBeside();

tellPlaces(RUNS);
process.exit(0);
