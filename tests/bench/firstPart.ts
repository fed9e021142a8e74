import { chromium } from "@playwright/test";
import type { PlacesMessage, PlacesWord } from "@/lib/client/places/placesMessages";
import { E9 } from "@/lib/instrument/copedents/e9";
import { BROWSER_SWITCHES, findBrowser } from "../e2e/browser";
import { bundled } from "./bundled";

const BASE = "http://bench.invalid";
/** The part that is asked for: so many notes, one after the other, some in pairs. */
const NOTE_COUNT = 200;
const WARM_FOR_MS = 6_000;

/** What the page is given: the first part, and another of the same length, so that nothing of the first answers it. */
interface Order {
  warm: PlacesMessage | null;
  warmForMs: number;
  parts: PlacesMessage[];
}

function part(by: number): PlacesMessage {
  const scale = [55, 57, 59, 60, 62, 64, 66, 67, 69, 71, 72, 74];
  const notes = Array.from({ length: NOTE_COUNT }, (_, at) => {
    const midi = scale[(at * 5 + by + (at >> 3)) % scale.length]!;
    const startSec = (at >> 1) * 0.4;
    return {
      startSec,
      endSec: startSec + 0.3,
      midi: at % 2 === 0 ? midi : midi + 4,
      glides: [],
      confidence: null,
    };
  });
  const around = { key: { tonic: "G", mode: "major" } as const, changes: [], kept: [] };
  return { kind: "passage", question: { copedent: E9, notes, around } };
}

/** How long a fresh worker takes for its first part and for later ones, left cold and warmed up, in Chromium. */
export async function tellFirstPart(runs: number): Promise<void> {
  const body = await bundled("lib/client/places/placesWorker.ts");
  const browser = await chromium.launch({ executablePath: await findBrowser(), args: BROWSER_SWITCHES });
  try {
    const page = await browser.newPage();
    await page.route(`${BASE}/**`, (route) =>
      new URL(route.request().url()).pathname === "/worker.js"
        ? route.fulfill({ body, contentType: "text/javascript" })
        : route.fulfill({ body: "<!doctype html><title>bench</title>", contentType: "text/html" }),
    );
    await page.goto(`${BASE}/`);
    const time = (order: Order) =>
      page.evaluate(async ({ warm, warmForMs, parts }: Order) => {
        const worker = new Worker("/worker.js", { type: "module" });
        if (warm) {
          worker.postMessage(warm);
          await new Promise((resolve) => setTimeout(resolve, warmForMs));
        }
        const times: number[] = [];
        // No function has a name here: what names them is not known to the page.
        for (const each of parts)
          times.push(
            await new Promise<number>((resolve) => {
              const start = performance.now();
              worker.onmessage = ({ data }: MessageEvent<PlacesWord>) => {
                if (data.kind !== "progress") resolve(performance.now() - start);
              };
              worker.postMessage(each);
            }),
          );
        worker.terminate();
        return times;
      }, order);
    const parts = [part(0), part(1), part(2), part(3)];
    const least = async (warm: PlacesMessage | null) => {
      const found: number[][] = [];
      for (let run = 0; run < runs; run += 1) found.push(await time({ warm, warmForMs: WARM_FOR_MS, parts }));
      return parts.map((_, at) => Math.min(...found.map((times) => times[at]!)));
    };
    const cold = await least(null);
    const warm = await least({ kind: "warm", copedent: E9 });
    const words = (times: readonly number[]) => times.map((ms) => `${ms.toFixed(0)} ms`).join(", then ");
    console.log(`${NOTE_COUNT} notes laid out by a fresh worker of Chromium, left cold: ${words(cold)}`);
    console.log(
      `the same by one that was warmed up: ${words(warm)}; the first takes ${(warm[0]! / cold[0]!).toFixed(2)} times as long as cold`,
    );
  } finally {
    await browser.close();
  }
}
