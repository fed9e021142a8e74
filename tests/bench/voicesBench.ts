import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { chromium } from "@playwright/test";
import { RECORD_URL } from "@/lib/client/playback/workletNames";
import { STRINGS_URL } from "@/lib/client/sound/soundMessages";
import { encodeWav } from "@/lib/synth/encodeWav";
import { BROWSER_SWITCHES, findBrowser } from "../e2e/browser";
import { bundled } from "./bundled";
import { cpuSec } from "./cpuSec";
import type { Heard, TimingOrder } from "./voicePage";
import { timeVoices, type VoiceTimes } from "./voices";

const RATE_HZ = 44_100;
const DURATION_SEC = 20;
const CLICKS_SEC = Array.from({ length: 36 }, (_, at) => 0.25 + at / 2);
const PAGE = `<!doctype html><title>bench</title><script type="module" src="/page.js"></script>`;

/** How the record is played while the strings keep with it. */
const ORDERS = [
  { what: "at full speed", speed: 1, loop: null, lengthSec: 8 },
  { what: "at 75 %", speed: 0.75, loop: null, lengthSec: 8 },
  { what: "at 50 %", speed: 0.5, loop: null, lengthSec: 10 },
  { what: "at 25 %", speed: 0.25, loop: null, lengthSec: 12 },
  { what: "in a loop of 1.9 s", speed: 1, loop: { startSec: 2.2, endSec: 4.1 }, lengthSec: 9 },
  { what: "in a loop at 50 %", speed: 0.5, loop: { startSec: 2.2, endSec: 4.1 }, lengthSec: 12 },
] as const;

/** Each by the media element, which plays until the record is in memory, and from there. */
function fromBoth(order: (typeof ORDERS)[number]) {
  return [
    { ...order, what: `${order.what}, by the media element`, isFromMemory: false },
    { ...order, what: `${order.what}, from memory`, isFromMemory: true },
  ];
}

function tell(
  where: string,
  { stringSec, partsSec, silentSec, slowestBlockSec, referenceSec }: VoiceTimes,
): void {
  const ms = (sec: number) => `${(1_000 * sec).toFixed(2)} ms`;
  const ratio = (sec: number) => (sec / referenceSec).toFixed(2);
  for (const [midi, sec] of Object.entries(stringSec))
    console.log(
      `${where}: a string at MIDI ${midi}, ${ms(sec)} for a second of sound, ${ratio(sec)} times its transforms`,
    );
  for (const [count, sec] of Object.entries(partsSec))
    console.log(
      `${where}: all ten strings of ${count === "1" ? "one part" : `each of ${count} parts`} ${ms(sec)} for a second, ${ratio(sec)} times its transforms (${ms(referenceSec)})`,
    );
  console.log(`${where}: three parts whose notes are still to come ${ms(silentSec)} for a second`);
  console.log(
    `${where}: of one part, slowest portion of 128 samples ${ms(slowestBlockSec)} of the 2.90 ms that it lasts`,
  );
}

function clickRecord(): Buffer {
  const samples = new Float32Array(DURATION_SEC * RATE_HZ);
  const count = 0.02 * RATE_HZ;
  for (const startSec of CLICKS_SEC) {
    for (let index = 0; index < count; index += 1)
      samples[Math.round(startSec * RATE_HZ) + index] =
        0.8 * Math.sin((2 * Math.PI * 1_000 * index) / RATE_HZ) * (1 - index / count);
  }
  return Buffer.from(encodeWav([samples], RATE_HZ));
}

/** A server on this machine's own loopback, since the audio thread starts only where the address is a safe one. */
async function serve(files: Readonly<Record<string, { body: Buffer | string; contentType: string }>>) {
  const server = createServer((request, answer) => {
    const file = files[request.url ?? ""];
    if (!file) return answer.writeHead(404).end();
    const body = Buffer.from(file.body as string);
    const range = /bytes=(\d+)-(\d*)/.exec(request.headers.range ?? "");
    const headers = {
      ...{ "content-type": file.contentType, "accept-ranges": "bytes", "cache-control": "no-store" },
    };
    if (!range) return answer.writeHead(200, headers).end(body);
    const [first, last] = [Number(range[1]), range[2] ? Number(range[2]) : body.length - 1];
    answer.writeHead(206, { ...headers, "content-range": `bytes ${first}-${last}/${body.length}` });
    answer.end(body.subarray(first, last + 1));
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, close: () => server.close() };
}

/** Prints what strings cost in Node and in Chromium, and how far from a record's clicks their picks go out. */
export async function tellVoices(): Promise<void> {
  tell("Node", timeVoices(cpuSec));
  const script = async (file: string) => ({ body: await bundled(file), contentType: "text/javascript" });
  const recordPlayer = await script("lib/client/playback/recordProcessor.ts");
  const files: Record<string, { body: Buffer | string; contentType: string }> = {
    "/": { body: PAGE, contentType: "text/html" },
    "/page.js": await script("tests/bench/voicePage.ts"),
    [STRINGS_URL]: await script("lib/client/sound/stringsProcessor.ts"),
    "/clicks.wav": { body: clickRecord(), contentType: "audio/wav" },
  };
  const served = await serve(files);
  const browser = await chromium.launch({ executablePath: await findBrowser(), args: BROWSER_SWITCHES });
  try {
    const page = await browser.newPage();
    await page.goto(served.url);
    await page.waitForFunction(() => "timeVoices" in window);
    const times = await page.evaluate(() => (window as unknown as { timeVoices(): VoiceTimes }).timeVoices());
    tell("Chromium", times);
    for (const { what, ...how } of ORDERS.flatMap(fromBoth)) {
      const order = { recordUrl: "/clicks.wav", durationSec: DURATION_SEC, clicksSec: CLICKS_SEC, ...how };
      // Without its player the record stays with the media element.
      if (order.isFromMemory) files[RECORD_URL] = recordPlayer;
      else delete files[RECORD_URL];
      const heard = await page.evaluate(
        (given) =>
          (window as unknown as { hearTogether(order: TimingOrder): Promise<Heard> }).hearTogether(given),
        order,
      );
      console.log(`Chromium, ${what}: ${apart(heard)}`);
    }
  } finally {
    await browser.close();
    served.close();
  }
}

function apart({ clicksSec, picksSec }: Heard): string {
  const offs = clicksSec.flatMap((click) => {
    const nearest = picksSec.map((pick) => pick - click).sort((a, b) => Math.abs(a) - Math.abs(b))[0];
    return nearest === undefined || Math.abs(nearest) > 0.3 ? [] : [1_000 * nearest];
  });
  const far = offs.map(Math.abs).sort((a, b) => a - b);
  if (far.length === 0) return "no pick was heard";
  const mean = offs.reduce((sum, off) => sum + off, 0) / offs.length;
  return `${offs.length} of ${clicksSec.length} clicks with a pick, on average ${mean.toFixed(1)} ms after it, at most ${far.at(-1)!.toFixed(1)} ms away, half of them within ${far[far.length >> 1]!.toFixed(1)} ms`;
}
