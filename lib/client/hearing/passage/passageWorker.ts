import type { NotesEar } from "@/lib/hearing/learned/NotesEar";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import { RequestError } from "../../requests/request";
import { fetchEar } from "./ear";
import { hearStretch } from "./hearStretch";
import type { PassageOrder, PassageWord } from "./passageMessages";

/** The body of the worker that hears passages: one order after another, by one ear. */
const PROGRESS_EVERY_MS = 200;
/** Heard once before anyone waits for it, so that all code is compiled. */
const WARMING_SEC = 2;

let ear: Promise<NotesEar> | null = null;

function say(word: PassageWord): void {
  self.postMessage(word);
}

/** The ear, fetched once; anew where fetching it failed. */
function theEar(): Promise<NotesEar> {
  ear ??= fetchEar().catch((fault: unknown) => {
    ear = null;
    throw fault;
  });
  return ear;
}

async function obey(order: PassageOrder): Promise<void> {
  const own = await theEar();
  if (order.kind === "warm") {
    const mid = Float32Array.from({ length: WARMING_SEC * HEARING_RATE_HZ }, (_, i) => Math.sin(i / 8) / 8);
    const sound = { sampleRateHz: HEARING_RATE_HZ, startFrame: 0, level: 0.1, sideLevel: 0, mid, side: null };
    hearStretch(own, sound, { startSec: 0, endSec: WARMING_SEC }, null);
    return say({ kind: "warm" });
  }
  let toldAt = 0;
  const notes = hearStretch(own, order.stretch, order.passage, order.tuningCents, (index, count) => {
    const now = performance.now();
    if (now - toldAt < PROGRESS_EVERY_MS) return;
    toldAt = now;
    say({ kind: "progress", fraction: index / count });
  });
  say({ kind: "heard", version: own.version, notes });
}

function faultWords(fault: unknown): string {
  if (fault instanceof RequestError) return fault.message;
  return `The notes here could not be heard (${fault instanceof Error ? fault.message : fault}). Nothing was changed.`;
}

self.onmessage = ({ data }: MessageEvent<PassageOrder>) => {
  obey(data).catch((fault: unknown) => say({ kind: "fault", message: faultWords(fault) }));
};
