import { transforms } from "../reference";
import { BenchPage } from "./BenchPage";
import { growthOf, quantile, spreadWords } from "./figures";
import { type FrameAct, timeFrames, timeKeys } from "./frames";
import { READINGS_A_MINUTE, readLooping, readVisits } from "./memory";
import { type Opening, timeOpening } from "./opening";
import type { Served } from "./serve";
import { startServed } from "./startServed";

export interface SongPageOrder {
  /** How long the record is. */
  minutes: number;
  /** How long it is looped for the memory. */
  loopMinutes: number;
  /** How often the page is entered and left. */
  visits: number;
}

const OPENINGS = 3;
const FRAMES = 300;
const KEY_PRESSES = 20;
/** What is made ready for later comes first. */
const SETTLING_MS = 5_000;
/** What the memory is told for. */
const LONG_LOOP_MINUTES = 30;

/**
 * Prints how heavy and how quick the song page is: script and opening on the demo, frames and keys on a long song, memory
 * while it loops, and what stays when the page is left.
 */
export async function tellSongPage(order: SongPageOrder): Promise<void> {
  const start = performance.now();
  transforms(60);
  console.log(
    `reference: the transforms of a minute of sound take ${((performance.now() - start) / 1_000).toFixed(2)} s here now`,
  );
  const { served, stop } = await startServed(order.minutes);
  try {
    await tellOpening(served);
    await tellLanes(served, order.minutes);
    await tellMemory(served, order);
  } finally {
    await stop();
  }
}

async function tellOpening(served: Served): Promise<void> {
  const openings: Opening[] = [];
  for (let run = 0; run < OPENINGS; run++) openings.push(await timeOpening(served, served.demoId));
  const [{ scriptKb, largest }] = openings as [Opening];
  const middle = (of: (opening: Opening) => number) => quantile(openings.map(of), 0.5).toFixed(0);
  console.log(
    `script of the song page, compressed: ${scriptKb.first.toFixed(0)} KB until it is drawn, ${scriptKb.later.toFixed(0)} KB later`,
  );
  for (const { name, kb } of largest) console.log(`  ${kb.toFixed(1).padStart(6)} KB  ${name}`);
  console.log(
    `opening the demo with an empty cache, median of ${OPENINGS}: first words after ${middle((each) => each.paintedMs)} ms, changes on screen ${middle((each) => each.drawnMs)}, the main thread free ${middle((each) => each.interactiveMs)}; blocked ${middle((each) => each.blockedMs)} ms`,
  );
}

async function tellLanes(served: Served, minutes: number): Promise<void> {
  const { beats, changes, bassNotes, steelNotes, bandNotes, partEvents, questions } = served.size;
  console.log(
    `a song of ${minutes} min: ${beats} beats, ${changes} changes, ${bassNotes} bass notes, ${steelNotes} notes of the steel, ${bandNotes} of the band, ${partEvents} events of the part, ${questions} questions`,
  );
  const bench = await BenchPage.open(served);
  try {
    const { page } = bench;
    const tell = async (what: string, act: FrameAct) => {
      const { frameMs, spentAFrame } = await timeFrames(bench, act, FRAMES);
      const late = frameMs.filter((ms) => ms > 25).length;
      console.log(
        `  ${what.padEnd(34)} ${spreadWords(frameMs, "ms")}, ${late} of ${frameMs.length} late; main thread ${spentAFrame.allMs.toFixed(1)} ms a frame (script ${spentAFrame.scriptMs.toFixed(1)}, style and layout ${spentAFrame.layoutMs.toFixed(1)})`,
      );
    };
    const tellKey = async (what: string, key: string) => {
      const { answeredMs, spentMs } = await timeKeys(bench, key, KEY_PRESSES);
      console.log(
        `  ${what.padEnd(34)} ${spreadWords(answeredMs, "ms")}; main thread ${spentMs.toFixed(1)} ms a key`,
      );
    };
    /** Opens the song anew, zoomed by so many steps. */
    const anew = async (key: "+" | "-" = "+", times = 0) => {
      await bench.openSong(served.longId);
      await page.waitForTimeout(SETTLING_MS);
      for (let press = 0; press < times; press++) await page.keyboard.press(key);
      await page.waitForTimeout(1_000);
    };
    console.log("frame after frame:");
    await anew();
    await tell("nothing", "nothing");
    await tell("scrolling", "scroll");
    await anew();
    await tell("zooming", "zoom");
    await anew("-", 6);
    await tell("scrolling, minutes in view", "scroll");
    await anew();
    await page.keyboard.press("Space");
    await page.waitForTimeout(4_000);
    await tell("playing", "nothing");
    console.log("from a key to the next picture:");
    await anew();
    await page.locator("[data-change]").nth(2).click();
    await tellKey("the next change", "ArrowRight");
    await tellKey("inking a change", "Enter");
    await page.keyboard.press("p");
    await tellKey("a beat on in the part", "ArrowRight");
    await tellKey("a fret in the part", "5");
    await anew("-", 20);
    await tellKey("zooming in from the whole song", "+");
  } finally {
    await bench.close();
  }
}

async function tellMemory(served: Served, { loopMinutes, visits }: SongPageOrder): Promise<void> {
  const bench = await BenchPage.open(served);
  try {
    await bench.openSong(served.longId);
    const looping = await readLooping(bench, loopMinutes);
    const last = looping.at(-1)!;
    const aMinute = growthOf(looping.map(({ heapMb }) => heapMb)) * READINGS_A_MINUTE;
    console.log(
      `looping ${loopMinutes} min: heap ${looping[0]!.heapMb.toFixed(1)} to ${last.heapMb.toFixed(1)} MB after garbage, ${last.domNodes} nodes, ${last.listeners} listeners; ${aMinute.toFixed(3)} MB a minute${loopMinutes < LONG_LOOP_MINUTES ? `, which over ${LONG_LOOP_MINUTES} min would be ${(aMinute * LONG_LOOP_MINUTES).toFixed(1)} MB (extrapolated, not measured)` : ""}`,
    );
  } finally {
    await bench.close();
  }
  const visitor = await BenchPage.open(served);
  try {
    const readings = await readVisits(visitor, served, served.longId, visits);
    // The first visits fill caches.
    const settled = readings.slice(2);
    const each = (name: keyof (typeof readings)[number]) => growthOf(settled.map((reading) => reading[name]));
    console.log(
      `entering and leaving the page ${visits} times: heap ${readings.map(({ heapMb }) => heapMb.toFixed(1)).join(" ")} MB; from the third on each visit adds ${each("heapMb").toFixed(2)} MB, ${each("domNodes").toFixed(0)} nodes, ${each("listeners").toFixed(0)} listeners`,
    );
  } finally {
    await visitor.close();
  }
}
