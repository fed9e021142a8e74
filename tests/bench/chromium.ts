import { readFile } from "node:fs/promises";
import path from "node:path";
import { chromium } from "@playwright/test";
import { BROWSER_SWITCHES, findBrowser } from "../e2e/browser";
import type { BrowserOrder, BrowserTimes } from "./browserWorker";
import { bundled } from "./bundled";

const ROOT = path.resolve(import.meta.dirname, "../..");
const ONNX = path.join(ROOT, "node_modules/onnxruntime-web/dist");
const BASE = "http://bench.invalid";

/** What the worker asks for by name. */
export interface BrowserFiles {
  channels: readonly Float32Array[];
  sampleRateHz: number;
  manifest: Buffer;
  weights: Buffer;
  model: Uint8Array;
}

/** Times the ear in a worker of a page in Chromium; no page is served, all requests are answered here. */
export async function timeInChromium(files: BrowserFiles, runs: number): Promise<BrowserTimes> {
  const { channels, sampleRateHz, manifest, weights, model } = files;
  const record = Buffer.concat(
    channels.map(({ buffer, byteOffset, byteLength }) => Buffer.from(buffer, byteOffset, byteLength)),
  );
  const answers: Record<string, { body: Buffer | string; contentType: string }> = {
    "/": { body: "<!doctype html><title>bench</title>", contentType: "text/html" },
    "/worker.js": { body: await bundled("tests/bench/browserWorker.ts"), contentType: "text/javascript" },
    "/record": { body: record, contentType: "application/octet-stream" },
    "/manifest": { body: manifest, contentType: "application/json" },
    "/weights": { body: weights, contentType: "application/octet-stream" },
    "/model": { body: Buffer.from(model), contentType: "application/octet-stream" },
  };
  const browser = await chromium.launch({ executablePath: await findBrowser(), args: BROWSER_SWITCHES });
  try {
    const page = await browser.newPage();
    await page.route(`${BASE}/**`, async (route) => {
      const { pathname } = new URL(route.request().url());
      const answer = answers[pathname];
      if (answer) return route.fulfill(answer);
      if (!pathname.startsWith("/ort/")) return route.fulfill({ status: 404 });
      const name = path.basename(pathname);
      const contentType = name.endsWith(".wasm") ? "application/wasm" : "text/javascript";
      return route.fulfill({ body: await readFile(path.join(ONNX, name)), contentType });
    });
    await page.goto(`${BASE}/`);
    const order: BrowserOrder = { base: BASE, channelCount: channels.length, sampleRateHz, runs };
    const said = await page.evaluate(
      (given) =>
        new Promise<{ times?: BrowserTimes; fault?: string }>((resolve) => {
          const worker = new Worker("/worker.js", { type: "module" });
          worker.onmessage = ({ data }) => resolve(data);
          worker.onerror = ({ message }) => resolve({ fault: message });
          worker.postMessage(given);
        }),
      order,
    );
    if (!said.times) throw new Error(said.fault ?? "the worker said nothing");
    return said.times;
  } finally {
    await browser.close();
  }
}
