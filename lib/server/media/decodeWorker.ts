import { parentPort, workerData } from "node:worker_threads";
import { decodeHere } from "./decode";
import { earCopyHere } from "./earCopyHere";
import { IntakeReceiver } from "./IntakeReceiver";
import { inspectHere } from "./inspectHere";
import { copyHere } from "./listeningCopyHere";
import { MediaError } from "./MediaError";
import type { MediaAnswers, MediaOrder, MediaWord } from "./mediaOrders";

/** The body of a media thread: one order, one answer. */
const order = workerData as MediaOrder;
const PROGRESS_EVERY_MS = 100;

function say(word: MediaWord, transfer: ArrayBuffer[] = []): void {
  parentPort?.postMessage(word, transfer);
}

let toldAt = 0;
const options = {
  maxDurationSec: order.maxDurationSec,
  timeLimitSec: order.timeLimitSec,
  ffmpeg: order.ffmpeg,
  onProgress: (fraction: number) => {
    const now = Date.now();
    if (fraction < 1 && now - toldAt < PROGRESS_EVERY_MS) return;
    toldAt = now;
    say({ kind: "progress", fraction });
  },
  onProcess: (pid: number | null) => say({ kind: "process", pid }),
};

async function obey(): Promise<{ answer: MediaAnswers[MediaOrder["kind"]]; transfer: ArrayBuffer[] }> {
  switch (order.kind) {
    case "take-in": {
      const receiver = new IntakeReceiver();
      await decodeHere(order.path, { ...options, receiver });
      const { signal, side, durationSec } = receiver.finish();
      const { pieces, length, sampleRateHz } = signal;
      const sidePieces = side && [...side.pieces];
      const answer = { pieces: [...pieces], length, sidePieces, sampleRateHz, durationSec };
      const all = [...pieces, ...(sidePieces ?? []).map(({ samples }) => samples)];
      return { answer, transfer: all.map(({ buffer }) => buffer) };
    }
    case "inspect":
      return { answer: await inspectHere(order.path, order.declared, options), transfer: [] };
    case "listening-copy":
      return { answer: await copyHere(order.path, order.toPath, options), transfer: [] };
    case "ear-copy":
      return { answer: await earCopyHere(order.path, order.toPath, options), transfer: [] };
  }
}

try {
  const { answer, transfer } = await obey();
  say({ kind: "done", answer }, transfer);
} catch (fault) {
  if (fault instanceof MediaError) say({ kind: "refused", code: fault.code, details: fault.details });
  else
    say({ kind: "broken", message: fault instanceof Error ? (fault.stack ?? fault.message) : String(fault) });
}
