import { chromium, type Route } from "@playwright/test";
import { api } from "@/lib/contracts/api";
import { parseRange } from "@/lib/contracts/byteRange";
import { openEarFiles } from "@/lib/server/hearing/earFiles";
import { EarCopyMaker } from "@/lib/server/media/EarCopyMaker";
import { BROWSER_SWITCHES, findBrowser } from "../e2e/browser";
import { bundled } from "./bundled";
import type { PassageOrder, PassageTimes } from "./passagePage";

const BASE = "http://bench.invalid";
const PASSAGE_SEC = 10;
const PAGE = `<!doctype html><title>bench</title><script type="module" src="/page.js"></script>`;

/** The copy that the server would keep of a record. */
function copyOf(channels: readonly Float32Array[], sampleRateHz: number): Buffer {
  const parts: Uint8Array[] = [];
  const maker = new EarCopyMaker({
    append: (bytes) => parts.push(bytes),
    rewriteStart: (bytes) => parts[0]!.set(bytes),
  });
  maker.begin(channels.length, sampleRateHz);
  maker.take(channels, channels[0]!.length);
  maker.finish();
  return Buffer.concat(parts);
}

/** Answers for one range of some bytes, as the server does. */
function fulfilRange(route: Route, bytes: Buffer): Promise<void> {
  const range = parseRange(route.request().headers().range ?? null, bytes.length);
  if (typeof range === "string") return route.fulfill({ status: 416 });
  return route.fulfill({
    status: 206,
    headers: { etag: '"bench"', "content-range": `bytes ${range.start}-${range.end}/${bytes.length}` },
    contentType: "application/octet-stream",
    body: bytes.subarray(range.start, range.end + 1),
  });
}

/**
 * Prints how long a passage of ten seconds takes in Chromium from the act to pencil: its bytes fetched, heard in a worker,
 * and written into a song, on a page that is answered here. The browser's own drawing comes on top.
 */
export async function tellPassageAtOnce(
  channels: readonly Float32Array[],
  sampleRateHz: number,
): Promise<void> {
  const files = openEarFiles();
  const listing = await files.list();
  const copy = copyOf(channels, sampleRateHz);
  const [page, worker] = [
    await bundled("tests/bench/passagePage.ts"),
    await bundled("lib/client/hearing/passage/passageWorker.ts"),
  ];
  const script = (body: Buffer) => ({ body, contentType: "text/javascript" });
  const answers: Record<string, (route: Route) => Promise<void>> = {
    "/": (route) => route.fulfill({ body: PAGE, contentType: "text/html" }),
    "/page.js": (route) => route.fulfill(script(page)),
    "/worker.js": (route) => route.fulfill(script(worker)),
    [api.ear()]: (route) => route.fulfill({ json: listing }),
    [api.earCopy("bench")]: (route) => fulfilRange(route, copy),
  };
  for (const { sha256 } of Object.values(listing)) {
    const body = Buffer.from(await files.read(sha256));
    answers[api.earWeights(sha256)] = (route) => route.fulfill({ body });
  }
  const browser = await chromium.launch({ executablePath: await findBrowser(), args: BROWSER_SWITCHES });
  try {
    const tab = await browser.newPage();
    await tab.route(`${BASE}/**`, (route) => {
      const answer = answers[new URL(route.request().url()).pathname];
      return answer ? answer(route) : route.fulfill({ status: 404 });
    });
    await tab.goto(`${BASE}/`);
    const order: PassageOrder = {
      copyUrl: api.earCopy("bench"),
      workerUrl: "/worker.js",
      passages: [6, 8, 10, 12, 14, 16].map((startSec) => ({ startSec, endSec: startSec + PASSAGE_SEC })),
    };
    const times = await tab.evaluate(
      (given) =>
        (window as unknown as { timePassages(o: PassageOrder): Promise<PassageTimes> }).timePassages(given),
      order,
    );
    tell(times);
  } finally {
    await browser.close();
  }
}

function tell({ firstSec, laterSec, noteCounts, referenceSec }: PassageTimes): void {
  const inOrder = [...laterSec].sort((a, b) => a - b);
  const [quickest, middle] = [inOrder[0]!, inOrder[Math.floor(inOrder.length / 2)]!];
  const ratio = (middle / referenceSec).toFixed(1);
  console.log(
    `a passage of ${PASSAGE_SEC} s at once in Chromium, from the act to pencil: ${middle.toFixed(2)} s (quickest ${quickest.toFixed(2)}), ${ratio} times the transforms of the same sound (${referenceSec.toFixed(2)} s); ${firstSec.toFixed(2)} s where the ear is not ready yet; ${noteCounts.join(", ")} notes`,
  );
}
