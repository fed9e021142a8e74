import type { Copedent } from "@/lib/instrument/Copedent";
import { E9 } from "@/lib/instrument/copedents/e9";
import type { HeardEvent } from "@/lib/places/HeardEvent";
import { placeSequence } from "@/lib/places/placeSequence";
import { GUITAR, LAP_C6 } from "../fixtures/fretted/necks";
import { cpuSec } from "./cpuSec";
import { sorting } from "./reference";

/** What is laid out, and in how many events. */
interface Laid {
  what: string;
  copedent: Copedent;
  slants: boolean;
  counts: readonly number[];
}

const LAID: readonly Laid[] = [
  { what: "on E9", copedent: E9, slants: false, counts: [100, 300, 1_000, 3_000, 10_000] },
  { what: "under fingers on guitar", copedent: GUITAR, slants: false, counts: [1_000, 10_000] },
  { what: "with slants on a C6 lap steel", copedent: LAP_C6, slants: true, counts: [1_000, 10_000] },
  { what: "with slants on E9", copedent: E9, slants: true, counts: [1_000, 10_000] },
];
const G_MAJOR = [0, 2, 4, 5, 7, 9, 11];
const CHORDS = ["G:maj", "C:maj", "D:7", "E:min", "A:min", "G:maj", "D:maj", "C:maj"];

/** Notes that wander through a key by a generator of whole numbers, the same each time: lines, pairs and chords. */
function wanderingPart(count: number): HeardEvent[] {
  let seed = 12_345;
  const next = (below: number) => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
    return Math.floor((seed / 2_147_483_648) * below);
  };
  const step = (degree: number) => 7 + 12 * Math.floor(degree / 7) + G_MAJOR[((degree % 7) + 7) % 7]!;
  let degree = 31;
  let startSec = 0;
  return Array.from({ length: count }, (_, index): HeardEvent => {
    degree = Math.min(39, Math.max(25, degree + next(7) - 3));
    const above = [[0], [0, 2], [0, 5], [0, 3, 5], [0, 2, 4]][next(5)]!;
    // Now and then a note outside the key, so that few sets of notes come twice.
    const bend = next(6) === 0 ? 1 : 0;
    const event = {
      startSec,
      endSec: startSec + 0.4,
      notesMidi: above.map((more, at) => step(degree + more) + (at === 0 ? bend : 0)),
      chordLabel: CHORDS[Math.floor(index / 4) % CHORDS.length]!,
    };
    startSec += 0.2 + next(8) / 10;
    return event;
  });
}

/**
 * How long laying out parts takes, from 100 events to 10,000, beside sorting a million numbers, and how that grows.
 */
export function tellPlaces(runs: number): void {
  for (const laid of LAID) tellLaid(laid, runs);
}

function tellLaid({ what, copedent, slants, counts }: Laid, runs: number): void {
  const secOf = new Map<number, number>();
  for (const count of counts) {
    const events = wanderingPart(count);
    let placingSec = Number.POSITIVE_INFINITY;
    let sortingSec = Number.POSITIVE_INFINITY;
    let candidateCount = 0;
    for (let run = 0; run < runs; run += 1) {
      const start = cpuSec();
      // A chart of its own, so that nothing is kept from the run before.
      const placed = placeSequence({ ...copedent }, events, { key: { tonic: "G", mode: "major" }, slants });
      const middle = cpuSec();
      sorting();
      placingSec = Math.min(placingSec, middle - start);
      sortingSec = Math.min(sortingSec, cpuSec() - middle);
      candidateCount = placed.events.reduce((sum, { candidates }) => sum + candidates.length, 0);
    }
    secOf.set(count, placingSec);
    const tenth = secOf.get(count / 10);
    const growth =
      tenth === undefined
        ? ""
        : `; ten times the events take ${(placingSec / tenth).toFixed(1)} times as long`;
    console.log(
      `placing ${count.toLocaleString("en")} events ${what}, ${(candidateCount / count).toFixed(0)} places each: ${(1_000 * placingSec).toFixed(0)} ms, ${(placingSec / sortingSec).toFixed(2)} times sorting a million numbers (${(1_000 * sortingSec).toFixed(0)} ms)${growth}`,
    );
  }
}
