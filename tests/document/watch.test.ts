import { describe, expect, it } from "vitest";
import { addChange, inkChange, inkChanges } from "@/lib/document/commands/changes";
import { setTuning } from "@/lib/document/commands/whole";
import { readSong } from "@/lib/document/read/readSong";
import type { SongSnapshot } from "@/lib/document/read/SongSnapshot";
import { watchSong } from "@/lib/document/read/watchSong";
import { done, hear, hearing, type Replica, replica, send } from "./replicas";

function watched(): { ann: Replica; seen: SongSnapshot[]; stop: () => void } {
  const ann = replica("ann", 1);
  hear(ann);
  const seen: SongSnapshot[] = [];
  const stop = watchSong(ann.doc, (song) => seen.push(song));
  return { ann, seen, stop };
}

describe("watching", () => {
  it("D19: calls at once with the song, and once a transaction", () => {
    const { ann, seen } = watched();
    expect(seen).toEqual([readSong(ann.doc)]);
    done(
      inkChanges(
        ann.ctx,
        seen[0]!.changes.map((each) => each.id),
      ),
    );
    done(hear(ann, hearing({ tuningCents: 1, chords: [], homes: [] }), "run 2"));
    expect(seen).toHaveLength(3);
    expect(seen[2]).toEqual(readSong(ann.doc));
  });

  it("D19: what did not change is the very same object", () => {
    const { ann, seen } = watched();
    done(inkChange(ann.ctx, seen[0]!.changes[1]!.id));
    const [before, after] = seen as [SongSnapshot, SongSnapshot];
    expect(after.changes[1]).not.toBe(before.changes[1]);
    for (const index of [0, 2, 3]) expect(after.changes[index]).toBe(before.changes[index]);
    expect(after.grid).toBe(before.grid);
    expect(after.tuning).toBe(before.tuning);
    expect(after.homes).toBe(before.homes);
    expect(after.part).toBe(before.part);
    expect(after.covered).toBe(before.covered);
  });

  it("D19: records keep their identity when others come before them", () => {
    const { ann, seen } = watched();
    done(addChange(ann.ctx, { startSec: 0, endSec: 0.5, label: "D" }));
    const [before, after] = seen as [SongSnapshot, SongSnapshot];
    expect(after.changes).toHaveLength(5);
    expect(after.changes.slice(2)).toEqual(before.changes.slice(1));
    for (const [index, change] of before.changes.slice(1).entries())
      expect(after.changes[index + 2]).toBe(change);
  });

  it("D19: is silent when nothing that is shown changed", () => {
    const { ann, seen } = watched();
    ann.doc.getMap("elsewhere").set("x", 1);
    ann.doc.getMap("change").set("nobody.colour", "red");
    hear(ann);
    expect(seen).toHaveLength(1);
  });

  it("D19: hears what comes from others, in one call, and nothing once stopped", () => {
    const { ann, seen, stop } = watched();
    const ben = replica("ben", 2);
    send(ann, ben);
    done(setTuning(ben.ctx, 3));
    done(addChange(ben.ctx, { startSec: 8, endSec: 9, label: "D" }));
    send(ben, ann);
    expect(seen).toHaveLength(2);
    expect(seen[1]).toEqual(readSong(ben.doc));
    stop();
    done(setTuning(ann.ctx, 4));
    expect(seen).toHaveLength(2);
  });
});
