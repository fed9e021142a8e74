import { describe, expect, it } from "vitest";
import { type Other, othersSeen } from "@/lib/client/song/presence";
import { setCovers } from "@/lib/document/commands/covers";
import { addPartEvent } from "@/lib/document/commands/part";
import { addStudies } from "@/lib/document/commands/studies";
import { coverSong } from "@/lib/document/read/coverSong";
import { readSong } from "@/lib/document/read/readSong";
import { GUESS_LANES } from "@/lib/lesson/GuessValue";
import { done, hear, replica } from "../../document/replicas";

type Lane = NonNullable<Other["cursor"]>["lane"];

function at(lane: Lane, timeSec: number, recordId: string | null = null): Other {
  return {
    clientId: 1,
    user: { id: "ann", name: "Ann" },
    cursor: { timeSec, lane, recordId },
    playing: true,
  };
}

describe("where another person is", () => {
  const ann = replica("ann", 1);
  hear(ann);
  const [study = ""] = done(addStudies(ann.ctx, [{ startSec: 2, endSec: 4, name: "Fill" }]));
  const [event = ""] = done(
    addPartEvent(ann.ctx, {
      startSec: 1.5,
      endSec: 3,
      strings: [5],
      fret: 3,
      changes: [],
      articulation: "pick",
    }),
  );
  const open = coverSong(readSong(ann.doc), { id: "ben", isStudent: true });
  done(setCovers(ann.ctx, { target: study, lanes: GUESS_LANES }, "students", true));
  const covered = coverSong(readSong(ann.doc), { id: "ben", isStudent: true });
  const seen = (other: Other, on = covered) => othersSeen([other], on)[0]!;

  it("is not told under a cover, in whatever lane of the page that lies; that the other is there, is", () => {
    for (const lane of ["changes", "bass", "notes", "part"] as const) {
      expect(seen(at(lane, 2.5))).toEqual({ ...at(lane, 2.5), cursor: null });
      expect(seen(at(lane, 2.5), open).cursor).not.toBeNull();
      expect(seen(at(lane, 4.5)).cursor).not.toBeNull();
    }
    expect(seen(at("sections", 2.5)).cursor).not.toBeNull();
    expect(seen(at("record", 2.5)).cursor).not.toBeNull();
  });

  it("is not told beside a cover either, where they hold what reaches under it", () => {
    expect(seen(at("part", 1.5, event)).cursor).toBeNull();
    expect(seen(at("part", 1.5, event), open).cursor).not.toBeNull();
    const [first] = covered.song.changes;
    expect(seen(at("changes", 0, first!.id)).cursor).not.toBeNull();
  });
});
