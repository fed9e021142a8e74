import { randomUUID } from "node:crypto";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { PeakMaker } from "@/lib/contracts/PeakMaker";
import { encodePeaks } from "@/lib/contracts/peaks";
import { addPartEvents } from "@/lib/document/commands/part";
import { answer, ask, setSettled } from "@/lib/document/commands/questions";
import { writeHearing } from "@/lib/document/commands/writeHearing";
import { MACHINE } from "@/lib/document/records/Stamp";
import type { Actor } from "@/lib/server/auth/session";
import type { House } from "@/lib/server/house";
import { addSong } from "@/lib/server/services/addSong";
import { renderDemoRecord } from "@/prisma/demo/renderDemo";
import { writeLong } from "../longRecord";
import { inventedHearing, inventedPart, inventedQuestions, type SongSize, sizeOf } from "./longSong";

/** The peaks of a record that is played over and over again. */
function longPeaks(channels: readonly Float32Array[], sampleRateHz: number, minutes: number): Uint8Array {
  const maker = new PeakMaker();
  maker.begin(channels.length, sampleRateHz);
  for (let left = Math.round(minutes * 60 * sampleRateHz); left > 0; ) {
    const count = Math.min(left, channels[0]!.length);
    maker.take(channels, count);
    left -= count;
  }
  return encodePeaks(maker.finish());
}

/**
 * Adds a long song to a book: a record made of the demo's, over and over, and what was heard in it and written to its
 * part invented (longSong.ts), by the same commands as a hearing and a person use. Nobody listens to it.
 */
export async function seedLongSong(
  house: House,
  actor: Actor,
  bookId: string,
  minutes: number,
): Promise<{ songId: string; size: SongSize }> {
  const { db, jobs, hub } = house;
  const folder = await mkdtemp(path.join(tmpdir(), "liftbook-bench-"));
  try {
    const { channels, sampleRateHz } = renderDemoRecord();
    const file = path.join(folder, "long.wav");
    await writeLong(file, channels.slice(0, 1), sampleRateHz, minutes);
    const song = await addSong(house, actor, bookId, {
      path: file,
      fileName: "long.wav",
      title: "A long song",
    });
    const run = await db.hearingRun.findFirstOrThrow({ where: { songId: song.id } });
    await jobs.cancelHearing(run.id);
    const { recordSha256: sha256 } = await db.song.findUniqueOrThrow({ where: { id: song.id } });
    const data = new Uint8Array(longPeaks(channels.slice(0, 1), sampleRateHz, minutes));
    await db.peaks.upsert({ where: { sha256 }, create: { sha256, data }, update: {} });

    const durationSec = minutes * 60;
    const hearing = inventedHearing(durationSec);
    const part = inventedPart(durationSec);
    const questions = inventedQuestions(durationSec);
    const results = await hub.edit(song.id, (doc) => {
      const by = actor.userId;
      const ctx = { doc, by, nowMs: Date.now(), newId: randomUUID, origin: by };
      return [
        writeHearing({ doc, nowMs: Date.now(), origin: MACHINE }, hearing, run.id),
        addPartEvents(ctx, part, "ink"),
        // Two of three answered, every fourth settled.
        ...questions.flatMap((fields, index) => {
          const asked = ask(ctx, fields);
          if (!asked.ok) return [asked];
          const [id = ""] = asked.ids;
          return [
            ...(index % 3 > 0
              ? [answer(ctx, id, { words: "Pedal. Listen to the top.", stretch: null })]
              : []),
            ...(index % 4 === 0 ? [setSettled(ctx, id, true)] : []),
          ];
        }),
      ];
    });
    const refused = results.find((result) => !result.ok);
    if (refused) throw new Error(`the long song was refused: ${JSON.stringify(refused)}`);
    await db.hearingRun.update({
      where: { id: run.id },
      data: { state: "done", result: JSON.parse(JSON.stringify(hearing)) },
    });
    return { songId: song.id, size: sizeOf(hearing, part, questions) };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
