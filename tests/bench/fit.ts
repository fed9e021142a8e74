import { chromium } from "@playwright/test";
import { FitEar } from "@/lib/fit/FitEar";
import { fitGuess } from "@/lib/fit/fitGuess";
import type { Guess } from "@/lib/fit/Guess";
import { RecordIntake } from "@/lib/hearing/RecordIntake";
import { BROWSER_SWITCHES, findBrowser } from "../e2e/browser";
import { bundled } from "./bundled";
import { cpuSec } from "./cpuSec";
import type { FitOrderOfBench, FitTimes } from "./fitPage";
import { transforms } from "./reference";

const LENGTHS_SEC = [0.25, 0.5, 1, 2, 4, 8, 16];
const RUNS = 9;
/** A pair, the commonest guess; what it takes grows little with the notes. */
const NOTES = [67, 71];
const BASE = "http://bench.invalid";
const PAGE = `<!doctype html><title>bench</title><script type="module" src="/page.js"></script>`;

/** Prints how long it takes to hold a pair, with all its near misses, against passages of growing length, in Node and in a worker of Chromium. */
export async function tellFit(
  channels: readonly Float32Array[],
  sampleRateHz: number,
  withBrowser: boolean,
): Promise<void> {
  const intake = new RecordIntake(sampleRateHz);
  intake.take(channels, channels[0]!.length);
  const record = intake.finish();
  const guess: Guess = { kind: "notes", notes: NOTES.map((midi) => ({ midi })) };
  const start = cpuSec();
  const ear = new FitEar(0);
  console.log(
    `fit: making ready for a record takes ${(1_000 * (cpuSec() - start)).toFixed(0)} ms of one thread in Node`,
  );
  for (let warm = 0; warm < 3; warm++) fitGuess(ear, record, { startSec: 3, endSec: 5 }, guess);
  for (const lengthSec of LENGTHS_SEC) {
    const times = Array.from({ length: RUNS }, (_, run) => {
      const before = cpuSec();
      fitGuess(ear, record, { startSec: 2 + run / 2, endSec: 2 + run / 2 + lengthSec }, guess);
      return cpuSec() - before;
    }).sort((a, b) => a - b);
    const before = cpuSec();
    transforms(lengthSec);
    tell("Node, work of one thread", lengthSec, times[RUNS >> 1]!, times.at(-1)!, cpuSec() - before);
  }
  if (!withBrowser) return;
  const length = record.signal.length;
  const side = record.side?.read(0, new Float32Array(length)) ?? new Float32Array(length);
  const mid = record.signal.read(0, new Float32Array(length));
  const left = mid.map((value, i) => value + side[i]!);
  const right = mid.map((value, i) => value - side[i]!);
  const { firstSec, later } = await inChromium(
    Buffer.concat([left, right].map(({ buffer }) => Buffer.from(buffer))),
  );
  console.log(
    `fit in a worker of Chromium, by the clock on the wall: ${(1_000 * firstSec).toFixed(0)} ms from starting the worker to the first answer`,
  );
  for (const { lengthSec, middleSec, slowestSec, referenceSec } of later)
    tell("Chromium, from asking to the answer", lengthSec, middleSec, slowestSec, referenceSec);
}

function tell(
  where: string,
  lengthSec: number,
  middleSec: number,
  slowestSec: number,
  referenceSec: number,
): void {
  const ms = (sec: number) => `${(1_000 * sec).toFixed(0)} ms`;
  console.log(
    `fit of a pair to ${lengthSec} s, ${where}: ${ms(middleSec)} (slowest ${ms(slowestSec)}), ${(middleSec / referenceSec).toFixed(1)} times the transforms of the same sound (${ms(referenceSec)})`,
  );
}

async function inChromium(record: Buffer): Promise<FitTimes> {
  const script = { contentType: "text/javascript" };
  const answers: Record<string, { body: Buffer | string; contentType: string }> = {
    "/": { body: PAGE, contentType: "text/html" },
    "/page.js": { body: await bundled("tests/bench/fitPage.ts"), ...script },
    "/worker.js": { body: await bundled("lib/client/fit/fitThread.ts"), ...script },
    "/record": { body: record, contentType: "application/octet-stream" },
  };
  const browser = await chromium.launch({ executablePath: await findBrowser(), args: BROWSER_SWITCHES });
  try {
    const page = await browser.newPage();
    await page.route(`${BASE}/**`, (route) => {
      const answer = answers[new URL(route.request().url()).pathname];
      return answer ? route.fulfill(answer) : route.fulfill({ status: 404 });
    });
    await page.goto(`${BASE}/`);
    const order: FitOrderOfBench = {
      recordUrl: "/record",
      workerUrl: "/worker.js",
      channelCount: 2,
      lengthsSec: LENGTHS_SEC,
      notesMidi: NOTES,
      runs: RUNS,
    };
    return await page.evaluate(
      (given) => (window as unknown as { timeFits(o: FitOrderOfBench): Promise<FitTimes> }).timeFits(given),
      order,
    );
  } finally {
    await browser.close();
  }
}
