import path from "node:path";
import { FitEar } from "@/lib/fit/FitEar";
import { judgeTake } from "@/lib/fit/takes/judgeTake";
import type { TakeJudged } from "@/lib/fit/takes/TakeJudged";
import type { TakeNote, TakeStroke } from "@/lib/fit/takes/TakeStroke";
import { HEARING_RATE_HZ } from "@/lib/hearing/parameters";
import type { ReferenceNote } from "@/lib/scoring/noteScore";
import { readNotes } from "../annotations";
import { takeSound } from "../takeSound";
import { Draws } from "./inventedStrokes";

/**
 * How recordings of one player alone, with known notes, are judged: against what was played, and against the same with one
 * note altered, a stroke more, or one less. Such sounds are made by others than our own strings. Prints a line a record, and
 * with `--lines` what was judged wrongly.
 *
 *   LIFTBOOK_EVAL=/folder/of/manifest npx tsx tests/quality/takes/measureRecorded.ts [ids] [--lines]
 */
const folder = process.env.LIFTBOOK_EVAL ?? "../shared/eval";
const words = process.argv.slice(2);
const ids = words.filter((word) => !word.startsWith("--"));
const isTold = words.includes("--lines");
const ALTERED = 6;
/** Notes begun within this are one stroke; a glide goes this long to either side of its middle, which is what is annotated. */
const STROKE_SEC = 0.05;
const HALF_GLIDE_SEC = 0.06;

type Growing = TakeNote & { glides: TakeNote["glides"][number][] };

function strokesOf(notes: readonly ReferenceNote[]): TakeStroke[] {
  const strokes: { eventId: string; startSec: number; notes: Growing[] }[] = [];
  const ringing: Growing[] = [];
  for (const { startSec, endSec, midi, kind } of [...notes].sort(
    (a, b) => a.startSec - b.startSec || a.midi - b.midi,
  )) {
    const pitch = Math.round(midi);
    if (kind === "slide") {
      const from = ringing
        .filter((note) => Math.abs(note.endSec - startSec) < 0.03)
        .sort((a, b) => Math.abs(lastOf(a) - pitch) - Math.abs(lastOf(b) - pitch))[0];
      if (!from) continue;
      if (lastOf(from) !== pitch)
        from.glides.push({
          eventId: `g${startSec}`,
          toMidi: pitch,
          startSec: startSec - HALF_GLIDE_SEC,
          endSec: startSec + HALF_GLIDE_SEC,
        });
      from.endSec = endSec;
      continue;
    }
    const note: Growing = { midi: pitch, endSec, glides: [] };
    ringing.push(note);
    const last = strokes.at(-1);
    if (last && startSec - last.startSec < STROKE_SEC) last.notes.push(note);
    else strokes.push({ eventId: `s${strokes.length}`, startSec, notes: [note] });
  }
  return strokes;
}

function lastOf({ midi, glides }: TakeNote): number {
  return glides.at(-1)?.toMidi ?? midi;
}

function told({ flaws, strokes, besides, medianLateSec, spreadSec }: TakeJudged): string {
  const wrong = strokes
    .filter(({ verdict, glides }) => verdict !== "found" || glides.some(({ hasArrived }) => !hasArrived))
    .map(
      ({ startSec, notesMidi, verdict, heardMidi }) =>
        `${startSec.toFixed(2)} ${notesMidi} ${verdict} ${heardMidi ?? ""}`,
    );
  return `${flaws.join(", ") || "clean"}; median ${medianLateSec}, spread ${spreadSec}; ${wrong.join("; ")}; besides ${besides.map(({ atSec, heardMidi }) => `${atSec.toFixed(2)} ${heardMidi}`).join("; ")}`;
}

for (const id of ids.length > 0 ? ids : ["ds-01", "ds-02", "ds-03"]) {
  const { signal, durationSec } = await takeSound(
    path.join(
      folder,
      "audio",
      `${id}.${id.startsWith("ds-0") && Number(id.at(-1)) > 3 ? "ogg" : id.startsWith("dg") ? "ogg" : "flac"}`,
    ),
  );
  const samples = signal.read(0, new Float32Array(signal.length));
  const strokes = strokesOf(
    readNotes(path.join(folder), `annot/${id}.notes.tsv`).filter(
      ({ role }) => ids.length > 0 || role === "steel",
    ),
  );
  const ear = new FitEar(0);
  const judge = (asked: readonly TakeStroke[]) =>
    judgeTake(
      ear,
      { samples, sampleRateHz: HEARING_RATE_HZ, startSec: 0, endSec: durationSec, speed: 1, leadSec: 0 },
      asked,
    );
  const right = judge(strokes);
  const arrived = right.strokes.flatMap(({ glides }) => glides);
  const draws = new Draws(id.charCodeAt(4));
  let [altered, less, more] = [0, 0, 0];
  for (let n = 0; n < ALTERED; n++) {
    const at = 1 + draws.below(strokes.length - 2);
    const note = draws.below(strokes[at]!.notes.length);
    const by = draws.of([-1, 1, -2, 2]);
    const other = strokes.map((stroke, place) =>
      place === at
        ? {
            ...stroke,
            notes: stroke.notes.map((each, index) =>
              index === note ? { ...each, midi: each.midi + by } : each,
            ),
          }
        : stroke,
    );
    const verdict = judge(other).strokes[at]!.verdict;
    altered += Number(verdict !== "found");
    if (isTold && verdict === "found")
      process.stdout.write(`  ${id} altered ${strokes[at]!.startSec} by ${by}: found\n`);
    const withoutOne = judge(strokes.filter((_, place) => place !== at));
    less += Number(withoutOne.besides.some(({ atSec }) => Math.abs(atSec - strokes[at]!.startSec) < 0.06));
    const gapSec = (strokes[at]!.startSec + strokes[at + 1]!.startSec) / 2;
    const extra = {
      eventId: "extra",
      startSec: gapSec,
      notes: [{ midi: strokes[at]!.notes[0]!.midi + 5, endSec: gapSec + 0.2, glides: [] }],
    };
    const withOne = judge([...strokes.slice(0, at + 1), extra, ...strokes.slice(at + 1)]);
    more += Number(withOne.strokes[at + 1]!.verdict !== "found");
  }
  process.stdout.write(
    `${id}: ${right.isClean ? "clean" : "not clean"}, ${right.foundCount} of ${right.strokeCount} strokes found, ${arrived.filter(({ hasArrived }) => hasArrived).length} of ${arrived.length} glides, ${right.besides.length} besides; median ${((right.medianLateSec ?? 0) * 1000).toFixed(0)} ms, spread ${((right.spreadSec ?? 0) * 1000).toFixed(0)} ms; told: ${altered} of ${ALTERED} altered, ${less} of ${ALTERED} played and not written, ${more} of ${ALTERED} written and not played\n`,
  );
  if (isTold) process.stdout.write(`  ${told(right)}\n`);
}
