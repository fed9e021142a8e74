import { readdirSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { writeHearing } from "@/lib/document/commands/writeHearing";
import { readSong } from "@/lib/document/read/readSong";
import { hearRecord } from "@/lib/hearing/hear";
import { isSteel } from "@/lib/hearing/notes/isSteel";
import { readLearnedEars } from "@/lib/server/hearing/earWeights";
import { takeInFile } from "@/lib/server/media/takeInFile";

const FOLDER = "tests/fixtures/quality";
const SONGS = readdirSync(FOLDER).filter((name) => name.endsWith(".ogg"));

// One number that is none, in one corner of a hearing, and a record would never be heard.
test.each(["learned", "signal"])(
  "all that the ear (%s) says of recordings of our own is taken by the shared song",
  async (which) => {
    expect(SONGS.length).toBeGreaterThan(0);
    const ears = which === "learned" ? await readLearnedEars() : { ear: null, notesEar: null };
    if (which === "learned") expect(Object.values(ears)).not.toContain(null);
    for (const name of SONGS) {
      const record = await takeInFile(path.join(FOLDER, name), { maxDurationSec: 600, timeLimitSec: 60 });
      const hearing = hearRecord(record, { ...ears, notes: true });
      const doc = new Y.Doc();
      const written = writeHearing({ doc, nowMs: 1, origin: "hearing" }, hearing, "run 1");
      expect(written, name).toMatchObject({ ok: true });
      const song = readSong(doc);
      expect(song.changes, name).toHaveLength(hearing.chords.length);
      expect(song.homes, name).toHaveLength(hearing.homes.length);
      expect(song.bass, name).toHaveLength(hearing.bass.length);
      expect(song.sections, name).toHaveLength(hearing.sections.length);
      if (ears.notesEar) expect(hearing.notes!.length, name).toBeGreaterThan(0);
      else expect(hearing.notes).toBeNull();
      // Steel notes that begin within 10 ms on one pitch are one finding.
      const steel = (hearing.notes ?? []).filter(isSteel);
      const findings = new Set(
        steel.map((each) => `${Math.round(each.startSec * 100)} ${Math.round(each.midi)}`),
      );
      expect(song.notes, name).toHaveLength(findings.size);
    }
  },
  180_000,
);
