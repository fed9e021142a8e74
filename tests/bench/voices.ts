import { partGroup } from "@/lib/synth/groups";
import { SongClock } from "@/lib/synth/SongClock";
import type { BankNote } from "@/lib/synth/StringSet";
import { StringVoice } from "@/lib/synth/StringVoice";
import { steelPluck } from "@/lib/synth/steelPluck";
import { TIMBRES } from "@/lib/synth/timbres";
import { VoiceBank } from "@/lib/synth/VoiceBank";
import { transforms } from "./reference";

const RATE_HZ = 44_100;
const BLOCK = 128;
const LENGTH_SEC = 5;
const RUNS = 5;
/** The open strings of E9, of which each sounds by itself, and all at once. */
const STRINGS = [66, 63, 68, 64, 59, 56, 54, 52, 50, 47];

export interface VoiceTimes {
  /** Seconds for each second of sound, by MIDI pitch of the string. */
  stringSec: Record<number, number>;
  /** The same where so many parts sound all ten strings of their necks at once. */
  partsSec: Record<number, number>;
  /** The same for three parts of 2,000 notes that are all still to come. */
  silentSec: number;
  /** The slowest portion of 128 samples of the ten strings, of the quickest run. */
  slowestBlockSec: number;
  /** The transforms of one second of sound. */
  referenceSec: number;
}

const pluckOf = (midi: number) =>
  steelPluck(
    {
      ...{ startSec: 0, endSec: LENGTH_SEC, pitch: [{ timeSec: 0, midi }], level: 0.4, swellSec: 0 },
      vibrato: { startSec: 0.3, rateHz: 5.6, depthCents: 10 },
    },
    0,
    1,
  );

/** Times strings as the audio thread plays them, a block of 128 samples at a time. */
export function timeVoices(nowSec: () => number): VoiceTimes {
  const out = new Float32Array(BLOCK);
  const other = new Float32Array(BLOCK);
  const blocks = Math.floor((LENGTH_SEC * RATE_HZ) / BLOCK);
  const quickest = (work: () => void): number => {
    let best = Number.POSITIVE_INFINITY;
    for (let run = 0; run < RUNS; run += 1) {
      const start = nowSec();
      work();
      best = Math.min(best, nowSec() - start);
    }
    return best;
  };
  const stringSec: Record<number, number> = {};
  for (const midi of [47, 59, 68, 80]) {
    const sec = quickest(() => {
      const clock = new SongClock(RATE_HZ);
      clock.start(0, 0);
      const voice = new StringVoice(RATE_HZ);
      voice.pick(TIMBRES.steel, pluckOf(midi), 0, clock);
      for (let block = 0; block < blocks; block += 1) voice.addTo(out, 0, block * BLOCK, BLOCK, clock);
    });
    stringSec[midi] = sec / LENGTH_SEC;
  }
  const notes = STRINGS.map(
    (midi): BankNote => ({ id: String(midi), timbre: "steel", pluck: pluckOf(midi) }),
  );
  let slowestBlockSec = Number.POSITIVE_INFINITY;
  const timeParts = (parts: readonly (readonly BankNote[])[]): number =>
    quickest(() => {
      const bank = new VoiceBank(RATE_HZ);
      for (const [at, notes] of parts.entries()) bank.play(partGroup(String(at)), notes);
      bank.hearOfSong(0, 0, 1);
      let slowest = 0;
      for (let block = 0; block < blocks; block += 1) {
        const start = nowSec();
        bank.addTo([out, other], BLOCK);
        slowest = Math.max(slowest, nowSec() - start);
      }
      if (parts.length === 1) slowestBlockSec = Math.min(slowestBlockSec, slowest);
    }) / LENGTH_SEC;
  const partsSec = Object.fromEntries(
    [1, 2, 3].map((count) => [count, timeParts(Array.from({ length: count }, () => notes))]),
  );
  const later = Array.from({ length: 2_000 }, (_, at): BankNote => {
    const startSec = LENGTH_SEC + 1 + at;
    const pluck = { ...pluckOf(64), startSec, endSec: startSec + 1 };
    return { id: String(at), timbre: "steel", pluck };
  });
  const silentSec = timeParts([later, later, later]);
  const referenceSec = quickest(() => transforms(10)) / 10;
  return { stringSec, partsSec, silentSec, slowestBlockSec, referenceSec };
}
