import { gzipSync } from "node:zlib";
import { pages } from "@/lib/contracts/api";
import { BenchPage } from "./BenchPage";
import type { Served } from "./serve";

/** What the browser fetched and did until a song page could be used. */
export interface Opening {
  /** Of the page's own scripts, compressed by gzip as any server does: until it can be used, and afterwards with its workers. */
  scriptKb: { first: number; later: number };
  /** From the navigation, ms: first words, changes on screen, and the main thread free. */
  paintedMs: number;
  drawnMs: number;
  interactiveMs: number;
  /** Long tasks (over 50 ms) until then. */
  blockedMs: number;
  /** The largest scripts, KB compressed. */
  largest: { name: string; kb: number }[];
}

interface LongTask {
  startMs: number;
  durationMs: number;
}

/** The main thread is free after this long without a long task. */
const QUIET_MS = 1_000;

function watchLongTasks(): void {
  const tasks: { startMs: number; durationMs: number }[] = [];
  Object.assign(window, { longTasks: tasks });
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries())
      tasks.push({ startMs: startTime, durationMs: duration });
  }).observe({ type: "longtask", buffered: true });
}

/** Opens a song page in a browser that has nothing of it yet. */
export async function timeOpening(served: Served, songId: string): Promise<Opening> {
  const bench = await BenchPage.open(served, watchLongTasks);
  try {
    const { page } = bench;
    // What the pages before it brought along must be fetched again.
    await bench.meters.send("Network.clearBrowserCache");
    const sizes = new Map<string, number>();
    let isDrawn = false;
    const first = new Set<string>();
    page.on("response", (response) => {
      const url = response.url();
      if (!/\.js(\?|$)/.test(url) || response.status() !== 200) return;
      if (!isDrawn) first.add(url);
      void response.body().then(
        (body) => sizes.set(url, gzipSync(body).length / 1_000),
        () => undefined,
      );
    });
    await page.goto(pages.song(songId), { waitUntil: "commit" });
    await bench.untilDrawn();
    const drawnMs = await page.evaluate(() => performance.now());
    isDrawn = true;
    await page.waitForTimeout(QUIET_MS);
    const { paintedMs, tasks } = await page.evaluate(() => ({
      paintedMs: performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? Number.NaN,
      tasks: (window as unknown as { longTasks: LongTask[] }).longTasks,
    }));
    // What is made ready for later comes after the page had time for itself.
    await page.waitForTimeout(4_000);
    let interactiveMs = drawnMs;
    const early = tasks.filter(({ startMs }) => startMs < drawnMs + QUIET_MS);
    for (const { startMs, durationMs } of early)
      if (startMs < interactiveMs + QUIET_MS) interactiveMs = Math.max(interactiveMs, startMs + durationMs);
    const sum = (wanted: (url: string) => boolean) =>
      [...sizes].reduce((total, [url, kb]) => total + (wanted(url) ? kb : 0), 0);
    return {
      scriptKb: { first: sum((url) => first.has(url)), later: sum((url) => !first.has(url)) },
      paintedMs,
      drawnMs,
      interactiveMs,
      blockedMs: early.reduce((total, { durationMs }) => total + Math.max(0, durationMs - 50), 0),
      largest: [...sizes]
        .map(([url, kb]) => ({ name: `${first.has(url) ? "" : "later: "}${url.split("/").at(-1)}`, kb }))
        .sort((a, b) => b.kb - a.kb)
        .slice(0, 8),
    };
  } finally {
    await bench.close();
  }
}
