import { describe, expect, it } from "vitest";
import { measureNotes } from "@/lib/cli/measureNotes";
import type { MeasuredSong } from "@/lib/contracts/labels";
import type { HeardNote } from "@/lib/hearing/Hearing";

type Settled = NonNullable<NonNullable<MeasuredSong["labels"]["note"]>[number]["settled"]>;

function settled(startSec: number, midi: number, changed: Partial<Settled> = {}): Settled {
  return { startSec, endSec: startSec + 1, midi, glides: [], whose: "steel", ...changed };
}
function heard(startSec: number, midi: number, changed: Partial<HeardNote> = {}): HeardNote {
  return { startSec, endSec: startSec + 1, midi, confidence: 0.8, steel: 0.9, glides: [], ...changed };
}
function song(notes: readonly Settled[], changed: Partial<MeasuredSong> = {}): MeasuredSong {
  return {
    ...{ recordSha256: "", tuningCents: 0, notesGoneOver: [{ startSec: 0, endSec: 10 }] },
    labels: { note: notes.map((each) => ({ act: "inked", settled: each })) },
    ...changed,
  };
}
const pull = { kind: "pedal" as const, toMidi: 61, atSec: 1.5, durationSec: 0.1 };

describe("measuring what is heard against labels", () => {
  it("counts the steel's notes, pairs, glides, and what moved them", () => {
    const known = [settled(1, 59, { glides: [pull] }), settled(1.01, 64), settled(3, 66), settled(5, 67)];
    const notes = [
      heard(1.03, 59.2, { glides: [{ ...pull, atSec: 1.55 }] }),
      heard(1, 64),
      // Found, and taken for the band's.
      heard(3, 66, { steel: 0.3 }),
      // The steel's to the ear, and nobody's.
      heard(7, 70),
      // The band's, of which the labels say nothing.
      heard(8, 40, { steel: 0.1 }),
    ];
    expect(measureNotes(song(known), { notes, tuningCents: 0 })).toEqual({
      goneOver: { stretches: 1, seconds: 10 },
      openNotes: 0,
      notes: { asked: 4, found: 3, share: 0.75 },
      steel: { precision: 0.667, recall: 0.5, f: 0.571, asked: 4, given: 3, found: 2 },
      pairs: { asked: 1, found: 1, share: 1 },
      glides: { asked: 1, found: 1, share: 1, given: 1 },
      pedalOrBar: { asked: 1, found: 1, share: 1 },
    });
  });

  it("asks only where notes have been gone over, and adds the stretches up", () => {
    const known = [settled(1, 60), settled(3, 60), settled(5, 60)];
    const notes = [heard(1, 60), heard(2.5, 65), heard(5, 61)];
    const two = [
      { startSec: 0.9, endSec: 2 },
      { startSec: 4.5, endSec: 6 },
    ];
    const { steel, goneOver } = measureNotes(song(known, { notesGoneOver: two }), { notes, tuningCents: 0 });
    expect(goneOver).toEqual({ stretches: 2, seconds: 2.6 });
    expect(steel).toMatchObject({ asked: 2, given: 2, found: 1, f: 0.5 });
  });

  it("passes over what people gave to the band or rubbed out, and says how many notes are open", () => {
    const labels: MeasuredSong["labels"] = {
      note: [
        { act: "corrected", settled: settled(1, 60, { whose: "band" }) },
        { act: "rubbedOut", settled: null },
        { act: "open", settled: null },
        { act: "inked", settled: settled(2, 60) },
      ],
    };
    const measured = measureNotes(song([], { labels }), {
      notes: [heard(1, 60), heard(2, 60)],
      tuningCents: 0,
    });
    expect(measured.openNotes).toBe(1);
    expect(measured.steel).toMatchObject({ asked: 1, given: 2, found: 1 });
  });

  it("compares pitches as they sound, however either takes the tuning", () => {
    const labels = song([settled(1, 60)], { tuningCents: 40 });
    const off = (tuningCents: number, midi: number) =>
      measureNotes(labels, { notes: [heard(1, midi)], tuningCents }).steel.found;
    expect(off(40, 60)).toBe(1);
    // The same pitch told from the tuning a semitone up, less a little.
    expect(off(-50, 61)).toBe(1);
    expect(off(-50, 60)).toBe(0);
    expect(
      measureNotes(song([settled(1, 60)], { tuningCents: null }), { notes: [heard(1, 60)], tuningCents: 40 })
        .steel.found,
    ).toBe(1);
  });

  it("has no share of what was not asked for", () => {
    expect(measureNotes(song([]), { notes: [], tuningCents: 0 })).toMatchObject({
      notes: { asked: 0, found: 0, share: null },
      pairs: { share: null },
      glides: { share: null, given: 0 },
    });
  });
});
