import pino from "pino";
import type * as Y from "yjs";
import type { HearingStatus } from "@/lib/contracts/books";
import type { Actor } from "@/lib/server/auth/session";
import { type EarFiles, openEarFiles } from "@/lib/server/hearing/earFiles";
import type { hearInWorker } from "@/lib/server/hearing/hearInWorker";
import type { Hub, Jobs } from "@/lib/server/house";
import { createJobs } from "@/lib/server/jobs/jobs";
import type { BlobStore } from "@/lib/server/storage/BlobStore";
import { openDiskBlobs } from "@/lib/server/storage/diskBlobs";
import { createEarCopies, type EarCopies, type EarCopiesDeps } from "@/lib/server/storage/earCopies";
import { createIntake, type Intake } from "@/lib/server/storage/intake";
import { createHub } from "@/lib/server/sync/hub";
import { actorOf, addTestBook, addTestUser, openTestHouse, type TestHouse } from "../testHouse";

export interface SongHouse extends TestHouse {
  blobs: BlobStore;
  intake: Intake;
  earCopies: EarCopies;
  earFiles: EarFiles;
  hub: Hub;
  jobs: Jobs;
  told: HearingStatus[];
  maker: Actor;
  student: Actor;
  listener: Actor;
  outsider: Actor;
  bookId: string;
  /** The shared song as the hub has it. */
  read<T>(songId: string, reading: (doc: Y.Doc) => T): Promise<T>;
}

/** Never answers; ends when it is told to. */
export const endlessEar: typeof hearInWorker = (_order, _events, signal) =>
  new Promise((_resolve, reject) => {
    if (signal.aborted) reject(signal.reason);
    signal.addEventListener("abort", () => reject(signal.reason), { once: true });
  });

/** A house with the real hub, queue, blobs and intake, and a book with one person of each kind. */
export async function openSongHouse(options: {
  env?: Record<string, string>;
  hear?: typeof hearInWorker;
  makeEarCopy?: EarCopiesDeps["make"];
}): Promise<SongHouse> {
  const house = await openTestHouse({ env: options.env });
  const { db, config } = house;
  const log = pino({ level: "silent" });
  const blobs = await openDiskBlobs(config.dataFolder);
  const hub = createHub({
    db,
    log,
    session: async () => null,
    membership: async () => null,
    allowedOrigins: [],
  });
  const told: HearingStatus[] = [];
  const telling: Hub = {
    ...hub,
    announceHearing(songId, status) {
      told.push(status);
      hub.announceHearing(songId, status);
    },
  };
  const jobs = await createJobs({
    config,
    db,
    hub: telling,
    blobs,
    log,
    databaseUrl: config.databaseUrl!,
    hear: options.hear,
  });
  const earCopies = createEarCopies({ config, db, blobs, log, make: options.makeEarCopy });
  const [maker, student, listener, outsider] = [
    actorOf(await addTestUser(db, "Maker")),
    actorOf(await addTestUser(db, "Student")),
    actorOf(await addTestUser(db, "Listener")),
    actorOf(await addTestUser(db, "Outsider")),
  ];
  const bookId = await addTestBook(db, maker.userId);
  await db.member.createMany({
    data: [
      { bookId, userId: student.userId, role: "student" },
      { bookId, userId: listener.userId, role: "listener" },
    ],
  });
  return {
    ...house,
    blobs,
    intake: createIntake(config, blobs),
    earCopies,
    earFiles: openEarFiles(),
    hub: telling,
    jobs,
    told,
    maker,
    student,
    listener,
    outsider,
    bookId,
    read: (songId, reading) => hub.edit(songId, reading),
    async close() {
      await jobs.stop();
      await hub.stop();
      await earCopies.stop();
      await house.close();
    },
  };
}

/** The code that a refusal carries. */
export const refusal = (promise: Promise<unknown>): Promise<unknown> =>
  promise.then(
    () => "accepted",
    (fault: { code?: string; message: string }) => fault.code ?? fault.message,
  );
