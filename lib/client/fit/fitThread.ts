import { Signal } from "@/lib/dsp/Signal";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import type { FitOrder, FitWord } from "./fitMessages";
import { StretchFitter } from "./fitStretch";

/** The body of the worker that holds guesses against the record: one order after another. */
const fitter = new StretchFitter();
/** Looked at once before anyone waits for it, so that all code is compiled. */
const WARMING_SEC = 1;

function say(word: FitWord): void {
  self.postMessage(word);
}

function obey(order: FitOrder): void {
  if (order.kind === "warm") {
    const samples = Float32Array.from(
      { length: 2 * WARMING_SEC * HEARING_RATE_HZ },
      (_, i) => Math.sin(i / 8) / 8,
    );
    const sound = { signal: Signal.of(samples, HEARING_RATE_HZ), side: null };
    fitter.earFor(order.tuningCents).look(sound, { startSec: 0.5, endSec: 0.5 + WARMING_SEC });
    return;
  }
  const { id, stretch, tuningCents, asked } = order;
  try {
    fitter.fit(stretch, tuningCents, asked, (at, answer) =>
      say(
        typeof answer === "string"
          ? { kind: "refused", id, at, message: answer }
          : { kind: "answer", id, at, answer },
      ),
    );
    say({ kind: "done", id });
  } catch (fault) {
    const why = fault instanceof Error ? fault.message : String(fault);
    say({
      kind: "fault",
      id,
      message: `This could not be held against the record (${why}). Nothing was changed.`,
    });
  }
}

self.onmessage = ({ data }: MessageEvent<FitOrder>) => obey(data);
