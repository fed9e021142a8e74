/** One record heard as the server does it, in a thread of this process, and what that took: one line of JSON. */
import { setTimeout as wait } from "node:timers/promises";
import { hearInWorker } from "@/lib/server/hearing/hearInWorker";
import { cpuSec } from "./cpuSec";

const [path = ""] = process.argv.slice(2);
// What starting leaves behind is collected first.
await wait(500);
const idleMb = process.memoryUsage().rss / 2 ** 20;
const start = cpuSec();
const hearing = await hearInWorker(
  {
    path,
    maxDurationSec: 3_600,
    timeLimitSec: 600,
    ffmpeg: "ffmpeg",
    peaksWanted: true,
    earCopyPath: `${path}.ear`,
  },
  { progress: () => {}, peaks: async () => {}, earCopy: async () => {} },
  new AbortController().signal,
);
const peakMb = process.resourceUsage().maxRSS / 1_024;
console.log(
  JSON.stringify({
    cpuSec: cpuSec() - start,
    durationSec: hearing.durationSec,
    growthMb: peakMb - idleMb,
  }),
);
