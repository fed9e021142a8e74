/** The page's side of the bench of fit: guesses held against stretches of a record by the worker of the song page. */
import { FitWorker } from "@/lib/client/fit/FitWorker";
import { midAndSide, type RecordStretch } from "@/lib/client/record/RecordStretch";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import { transforms } from "./reference";

export interface FitOrderOfBench {
  recordUrl: string;
  workerUrl: string;
  channelCount: number;
  lengthsSec: readonly number[];
  notesMidi: readonly number[];
  runs: number;
}

/** Of one length of passage, in seconds by the clock on the wall: from asking to the answer. */
export interface FitTime {
  lengthSec: number;
  middleSec: number;
  slowestSec: number;
  referenceSec: number;
}

export interface FitTimes {
  /** From starting the worker to its first answer. */
  firstSec: number;
  later: FitTime[];
}

const nowSec = (): number => performance.now() / 1_000;
const MARGIN_SEC = 0.5;

async function timeFits(order: FitOrderOfBench): Promise<FitTimes> {
  const samples = new Float32Array(await (await fetch(order.recordUrl)).arrayBuffer());
  const frames = samples.length / order.channelCount;
  const channels = Array.from({ length: order.channelCount }, (_, c) =>
    samples.slice(c * frames, (c + 1) * frames),
  );
  const worker = new FitWorker(() => new Worker(order.workerUrl, { type: "module" }));

  function stretchOf(startSec: number, lengthSec: number): RecordStretch {
    const startFrame = Math.floor((startSec - MARGIN_SEC) * HEARING_RATE_HZ);
    const endFrame = Math.ceil((startSec + lengthSec + MARGIN_SEC) * HEARING_RATE_HZ);
    const parts = channels.map((channel) => channel.slice(startFrame, endFrame));
    return { sampleRateHz: HEARING_RATE_HZ, startFrame, level: 0.1, sideLevel: 0.05, ...midAndSide(parts) };
  }

  async function ask(startSec: number, lengthSec: number): Promise<number> {
    const stretch = stretchOf(startSec, lengthSec);
    const passage = { startSec, endSec: startSec + lengthSec };
    const guess = { kind: "notes", notes: order.notesMidi.map((midi) => ({ midi })) } as const;
    const start = nowSec();
    let told = 0;
    await worker.fit(stretch, 0, [{ passage, guess }], (_, outcome) => {
      if ("refused" in outcome) throw new Error(outcome.refused);
      told += 1;
    });
    if (told !== 1) throw new Error("nothing was told");
    return nowSec() - start;
  }

  const firstSec = await ask(4, 2);
  for (let run = 0; run < 3; run++) await ask(4 + run, 2);
  const later: FitTime[] = [];
  for (const lengthSec of order.lengthsSec) {
    const times: number[] = [];
    for (let run = 0; run < order.runs; run++) times.push(await ask(2 + run / 2, lengthSec));
    times.sort((a, b) => a - b);
    const start = nowSec();
    transforms(lengthSec);
    const referenceSec = nowSec() - start;
    later.push({ lengthSec, middleSec: times[times.length >> 1]!, slowestSec: times.at(-1)!, referenceSec });
  }
  worker.close();
  return { firstSec, later };
}

Object.assign(window, { timeFits });
