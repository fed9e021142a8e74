import { FitEar } from "@/lib/fit/FitEar";
import { judgeTake } from "@/lib/fit/takes/judgeTake";
import type { TakeJudged } from "@/lib/fit/takes/TakeJudged";
import { pitchFrom, type TakeStroke } from "@/lib/fit/takes/TakeStroke";
import { Draws, inventedStrokes } from "./inventedStrokes";
import { type Playing, playedTake, type Slip, TAKE_RATE_HZ } from "./playedTake";

/**
 * How often takes are judged rightly, over invented parts that are played with hands that spread, in rooms: as they
 * stand they are clean; with one thing wrong they are not, and the verdict says what. Prints a table, and with `--lines`
 * what was judged wrongly. Seeds from 109 on had no part in the choice of parameters.
 *
 *   npx tsx tests/quality/takes/measureTakes.ts [first seed, 109] [last seed, 118] [--lines]
 */
const CONDITIONS: Readonly<Record<string, Omit<Playing, "seed" | "slips">>> = {
  plain: {},
  "room, -40 dB noise": { noiseDb: -40, room: 0.2 },
  "record at -20 dB": { bleedDb: -20, noiseDb: -40 },
  "90 ms late, 22 ms spread": { lateSec: 0.09, jitterSec: 0.022, noiseDb: -45 },
  "70 % speed": { speed: 0.7, lateSec: 0.03, noiseDb: -45 },
  "12 cents sharp, -30 dB noise": { tuningCents: 12, noiseDb: -30 },
};

interface Trial {
  name: string;
  slips: Slip[];
  /** Whether the verdict is right. */
  isRight(judged: TakeJudged): boolean;
}

function trials(strokes: readonly TakeStroke[], seed: number): Trial[] {
  const draws = new Draws(seed + 50);
  const at = 2 + draws.below(strokes.length - 3);
  const { notes } = strokes[at]!;
  const note = draws.below(notes.length);
  // A string that rings already, picked once more, could not be told from one that rings on.
  const ringing = strokes
    .slice(0, at)
    .flatMap(({ notes }) => notes.flatMap((note) => [note.midi, pitchFrom(note, Infinity)]));
  const besides = [3, 4, 5, -3, -4, -5]
    .map((by) => notes[0]!.midi + by)
    .find((midi) => !ringing.slice(-4).includes(midi))!;
  const glided = strokes.findIndex((stroke) => stroke.notes.some(({ glides }) => glides.length > 0));
  const list: Trial[] = [
    { name: "clean", slips: [], isRight: ({ isClean }) => isClean },
    {
      name: "wrong note",
      slips: [{ kind: "wrong", at, note, by: draws.of([-1, 1, -2, 2, 3, -3]) }],
      isRight: ({ strokes: judged }) => judged[at]!.verdict === "other",
    },
    {
      name: "left out",
      slips: [{ kind: "leftOut", at }],
      isRight: ({ strokes: judged }) => judged[at]!.verdict === "missed",
    },
    {
      name: "160 ms off",
      slips: [{ kind: "late", at, bySec: draws.of([0.16, -0.16]) }],
      isRight: ({ flaws }) => flaws.includes("outOfTime"),
    },
    {
      name: "one besides",
      slips: [{ kind: "besides", at, share: 0.5, midi: besides }],
      isRight: ({ flaws }) => flaws.includes("besides"),
    },
  ];
  if (notes.length > 1)
    list.push({
      name: "one note of a chord left out",
      slips: [{ kind: "thinner", at, note }],
      isRight: ({ strokes: judged }) => judged[at]!.verdict === "other",
    });
  if (glided >= 0)
    list.push({
      name: "no glide",
      slips: [{ kind: "noGlide", at: glided }],
      isRight: ({ strokes: judged, flaws }) =>
        judged[glided]!.glides.length === 0 || flaws.includes("notArrived"),
    });
  return list;
}

function faultsOf({ strokes, besides, flaws, medianLateSec, spreadSec }: TakeJudged): string {
  const wrong = strokes
    .filter(({ verdict, glides }) => verdict !== "found" || glides.some(({ hasArrived }) => !hasArrived))
    .map(
      ({ eventId, notesMidi, verdict, heardMidi }) => `${eventId} ${notesMidi} ${verdict} ${heardMidi ?? ""}`,
    );
  return `${flaws.join(", ") || "clean"}; median ${medianLateSec}, spread ${spreadSec}; ${wrong.join("; ")} besides ${JSON.stringify(besides)}`;
}

const [first = 109, last = 118] = process.argv
  .slice(2)
  .filter((word) => /^\d+$/.test(word))
  .map(Number);
const isTold = process.argv.includes("--lines");
const ear = new FitEar(0);
const names = [
  "clean",
  "wrong note",
  "left out",
  "one note of a chord left out",
  "160 ms off",
  "one besides",
  "no glide",
];
const counts = new Map<string, { right: number; of: number }>();
let [takes, ms, soundSec] = [0, 0, 0];
for (const [condition, playing] of Object.entries(CONDITIONS)) {
  for (let seed = first; seed <= last; seed++) {
    const strokes = inventedStrokes(seed);
    for (const { name, slips, isRight } of trials(strokes, seed)) {
      const { samples, durationSec } = playedTake(strokes, { ...playing, seed, slips });
      const speed = playing.speed ?? 1;
      const from = performance.now();
      const judged = judgeTake(
        ear,
        { samples, sampleRateHz: TAKE_RATE_HZ, startSec: 0, endSec: durationSec * speed, speed, leadSec: 0 },
        strokes,
      );
      ms += performance.now() - from;
      takes += 1;
      soundSec += durationSec;
      const key = `${condition}|${name}`;
      const count = counts.get(key) ?? { right: 0, of: 0 };
      counts.set(key, { right: count.right + Number(isRight(judged)), of: count.of + 1 });
      if (isTold && !isRight(judged))
        process.stdout.write(`${condition} ${seed} ${name} ${JSON.stringify(slips)}: ${faultsOf(judged)}\n`);
    }
  }
}
const cell = (key: string) => {
  const count = counts.get(key);
  return count ? `${count.right} of ${count.of}` : "";
};
process.stdout.write(`\n${["judged rightly", ...names].join(" | ")}\n`);
for (const condition of Object.keys(CONDITIONS))
  process.stdout.write(`${[condition, ...names.map((name) => cell(`${condition}|${name}`))].join(" | ")}\n`);
process.stdout.write(
  `${takes} takes, ${(soundSec / takes).toFixed(1)} s on average, ${(ms / takes).toFixed(0)} ms to judge one\n`,
);
