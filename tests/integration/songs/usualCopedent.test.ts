import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readSong } from "@/lib/document/read/readSong";
import type { Chart } from "@/lib/instrument/chart/Chart";
import type { Actor } from "@/lib/server/auth/session";
import { addSong } from "@/lib/server/services/addSong";
import { changeCopedent } from "@/lib/server/services/changeCopedent";
import { chooseUsualCopedent } from "@/lib/server/services/chooseUsualCopedent";
import { createCopedent } from "@/lib/server/services/createCopedent";
import { removeCopedent } from "@/lib/server/services/removeCopedent";
import { endlessEar, openSongHouse, type SongHouse } from "./songHouse";
import { toneFile } from "./toneFile";

let house: SongHouse;
let path: string;
beforeAll(async () => {
  house = await openSongHouse({ hear: endlessEar });
  path = join(house.config.dataFolder, "tone.wav");
  await writeFile(path, toneFile(1));
});
afterAll(() => house.close());

async function headOfNewSong(actor: Actor) {
  const { id } = await addSong(house, actor, house.bookId, { path, fileName: "tone.wav" });
  return house.read(id, (doc) => readSong(doc).head);
}

const LAP: Chart = { name: "Lap", strings: [64, 60, 57, 55, 52, 48], frets: 24, changes: [] };

test("a new song's part is played on the usual guitar of whoever adds it, as it is then", async () => {
  const { db, student, maker } = house;
  const own = await createCopedent(db, student, { chart: LAP });
  await chooseUsualCopedent(db, student, { copedentId: own.id });
  const head = await headOfNewSong(student);
  expect(head).toMatchObject({
    copedent: { id: own.id, name: "Lap" },
    from: { kind: "own", id: own.id, ownerId: student.userId },
    chosenBy: student.userId,
  });
  // Another's usual guitar, or none, is another's.
  expect((await headOfNewSong(maker)).copedent.id).toBe("e9");

  const { id } = await addSong(house, student, house.bookId, { path, fileName: "tone.wav" });
  await changeCopedent(db, student, own.id, { revision: 1, chart: { ...LAP, strings: [62] } });
  await removeCopedent(db, student, own.id);
  const kept = await house.read(id, (doc) => readSong(doc).head);
  expect(kept.copedent).toEqual(head.copedent);
});

test("a preset that is the usual guitar is copied whole too", async () => {
  await chooseUsualCopedent(house.db, house.student, { presetId: "e9" });
  expect(await headOfNewSong(house.student)).toMatchObject({
    from: { kind: "preset", id: "e9" },
    chosenBy: house.student.userId,
  });
});
