/**
 * A Liftbook for the bench, in a process of its own: the demo, heard, and beside it one long song. Prints one line
 * of JSON ({@link Served}) once it answers, and stops at SIGTERM.
 */
import path from "node:path";
import { fileURLToPath } from "node:url";
import { buildPages } from "@/lib/cli/start/build";
import { bundleWorklets } from "@/lib/cli/start/bundleWorklets";
import { generateClient } from "@/lib/cli/start/generate";
import { readConfig } from "@/lib/server/config/config";
import type { House } from "@/lib/server/house";
import type { SongSize } from "./longSong";

export interface Served {
  url: string;
  account: { email: string; password: string };
  bookId: string;
  demoId: string;
  longId: string;
  size: SongSize;
}

const OWN_FOLDER = path.resolve(fileURLToPath(new URL("../../../", import.meta.url)));
const LOOK_EVERY_MS = 500;

/** Until the machine is through with every record: nothing must compute beside what is measured. */
async function untilHeard({ db }: House): Promise<void> {
  while ((await db.hearingRun.count({ where: { state: { in: ["waiting", "running"] } } })) > 0)
    await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
}

async function serve(minutes: number): Promise<() => Promise<void>> {
  Object.assign(process.env, { NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1" });
  await generateClient();
  await bundleWorklets(OWN_FOLDER);
  await buildPages(OWN_FOLDER);
  // They need the generated client.
  const [{ startServer }, { seedDemo }, { seedLongSong }] = await Promise.all([
    import("@/lib/cli/start/serve"),
    import("@/prisma/seed/seedDemo"),
    import("./seedLongSong"),
  ]);
  const running = await startServer({ config: readConfig(process.env, OWN_FOLDER), folder: OWN_FOLDER });
  const { house } = running;
  const [account] = await seedDemo(house);
  if (!account) throw new Error("the demo gave nobody to sign in as");
  const demo = await house.db.song.findFirstOrThrow();
  const {
    id: userId,
    name,
    email,
  } = await house.db.user.findUniqueOrThrow({ where: { email: account.email } });
  const { songId, size } = await seedLongSong(house, { userId, name, email }, demo.bookId, minutes);
  await untilHeard(house);
  const served: Served = {
    url: running.url,
    account,
    bookId: demo.bookId,
    demoId: demo.id,
    longId: songId,
    size,
  };
  console.log(JSON.stringify(served));
  return running.stop;
}

const stop = await serve(Number(process.argv[2]));
process.once("SIGTERM", () => void stop().finally(() => process.exit(0)));
