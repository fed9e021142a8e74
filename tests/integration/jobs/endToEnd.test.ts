import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { decodeEarCopyHead } from "@/lib/contracts/earCopy";
import { decodePeaks } from "@/lib/contracts/peaks";
import { readSong as readShared } from "@/lib/document/read/readSong";
import { addUploadedSong } from "@/lib/server/services/addSong";
import { cancelHearing } from "@/lib/server/services/cancelHearing";
import { openEarCopy } from "@/lib/server/services/openEarCopy";
import { openPeaks } from "@/lib/server/services/openRecord";
import { readNotes } from "@/lib/server/services/readNotes";
import { readSong } from "@/lib/server/services/readSong";
import { startHearing } from "@/lib/server/services/startHearing";
import { openSongHouse, refusal, type SongHouse } from "../songs/songHouse";
import { toneFile } from "../songs/toneFile";
import { until } from "../sync/hubHarness";

let house: SongHouse;
beforeAll(async () => {
  house = await openSongHouse({ env: { LIFTBOOK_FFMPEG: "off" } });
});
afterAll(() => house.close());

function upload(durationSec: number) {
  const bytes = toneFile(durationSec);
  async function* body(): AsyncGenerator<Uint8Array> {
    yield bytes;
  }
  return addUploadedSong(house, house.maker, house.bookId, {
    body: body(),
    byteCount: bytes.length,
    fileName: "tones.wav",
  });
}

const last = (songRunId: string) => house.told.filter(({ runId }) => runId === songRunId).at(-1);

test("a recording is heard in a thread, from its bytes to pencil in the shared song", async () => {
  const row = await upload(16);
  const runId = row.hearing!.runId;
  await until("it is heard", () => ["done", "failed"].includes(last(runId)?.state ?? ""), 50_000);
  expect(last(runId)).toMatchObject({ state: "done", fraction: 1, message: null });
  const told = house.told.filter((one) => one.runId === runId);
  const steps = [...new Set(told.map(({ step }) => step))].filter((step) => step !== null);
  expect(steps).toEqual([
    "decode",
    "peaks",
    "tuning",
    "notes",
    "beats",
    "changes",
    "home",
    "bass",
    "sections",
  ]);
  const fractions = told.map(({ fraction }) => fraction);
  expect(fractions).toEqual([...fractions].sort((a, b) => a - b));

  const song = await house.read(row.id, readShared);
  expect(song.changes.length).toBeGreaterThan(1);
  expect(song.changes.every(({ mark }) => mark === "pencil")).toBe(true);
  expect(song.homes.length).toBeGreaterThan(0);
  expect(song.tuning).not.toBeNull();
  expect(song.bass.every(({ mark, madeBy }) => mark === "pencil" && madeBy === "machine")).toBe(true);
  expect(song.sections[0]).toMatchObject({ startSec: 0, label: "A", mark: "pencil" });
  expect(song.sections.at(-1)!.endSec).toBeCloseTo(16, 1);
  expect(song.changes.some(({ guesses }) => guesses.length === 3)).toBe(true);
  expect(song.homes[0]!.guesses).toHaveLength(3);
  expect(song.notes.every(({ mark, madeBy }) => mark === "pencil" && madeBy === "machine")).toBe(true);
  const band = await readNotes(house.db, house.listener, row.id);
  expect(band.state).toBe("heard");
  // Six notes of two triads, struck anew each half second; whose they are is not to be told of such tones.
  const heardMidis = [...band.notes, ...song.notes].map(({ midi }) => Math.round(midi));
  for (const midi of [55, 59, 62, 50, 54, 57]) expect(heardMidis).toContain(midi);
  expect((await readSong(house.db, house.student, row.id)).hearing?.state).toBe("done");

  let data = Buffer.alloc(0);
  const peaks = await openPeaks(house, house.student, row.id);
  for await (const chunk of peaks.open(0, peaks.byteCount - 1)) data = Buffer.concat([data, chunk as Buffer]);
  expect(decodePeaks(data)).toMatchObject({ sampleRateHz: 8_000, frameCount: 16 * 8_000 });

  const copy = await openEarCopy(house, house.listener, row.id);
  let head = Buffer.alloc(0);
  for await (const chunk of copy.open(0, 31)) head = Buffer.concat([head, chunk as Buffer]);
  const { channelCount, sampleRateHz, frameCount, level } = decodeEarCopyHead(head);
  expect([channelCount, sampleRateHz, frameCount]).toEqual([1, 22_050, 16 * 22_050]);
  expect(copy.byteCount).toBe(32 + 2 * frameCount);
  expect(level).toBeGreaterThan(0.01);
  expect(await readdir(join(house.config.dataFolder, "incoming"))).toEqual([]);

  // Heard again: the machine's own pencil stands as it was, and nothing is doubled.
  const again = await startHearing(house, house.student, row.id);
  await until("it is heard again", () => last(again.runId)?.state === "done", 50_000);
  const after = await house.read(row.id, readShared);
  for (const list of ["changes", "bass", "sections", "homes", "notes"] as const)
    expect(after[list].map(({ id }) => id)).toEqual(song[list].map(({ id }) => id));
});

test("a run is cancelled while its thread works; the song can be heard again after", async () => {
  const row = await upload(120);
  const runId = row.hearing!.runId;
  expect(await refusal(startHearing(house, house.maker, row.id))).toBe("already-hearing");
  await until("the thread works", () => last(runId)?.step === "tuning", 30_000);
  expect(await refusal(cancelHearing(house, house.listener, row.id))).toBe("not-allowed");
  expect(await refusal(cancelHearing(house, house.outsider, row.id))).toBe("not-found");
  expect((await cancelHearing(house, house.student, row.id)).state).toBe("cancelled");
  expect(last(runId)?.state).toBe("cancelled");
  expect((await house.read(row.id, readShared)).changes).toEqual([]);
  const again = await startHearing(house, house.maker, row.id);
  expect(again.state).toBe("waiting");
  expect((await cancelHearing(house, house.maker, row.id)).state).toBe("cancelled");
});
