import type { Cents, Hertz, Seconds } from "@/lib/units/quantities";

/** Which of a record's channels are heard: both, one in both ears, what they share, or what they differ by. */
export const CHANNEL_CHOICES = ["all", "left", "right", "middle", "sides"] as const;
export type ChannelChoice = (typeof CHANNEL_CHOICES)[number];

/** Which range of a record is heard: all of it, a steel's, a bass's, or one's own. */
export const BAND_CHOICES = ["all", "steel", "bass", "own"] as const;
export type BandChoice = (typeof BAND_CHOICES)[number];

/** A range of frequencies, the lower end first. */
export interface HertzRange {
  lowHz: Hertz;
  highHz: Hertz;
}

/** A loop that grows faster as it goes round. */
export interface SpeedLadder {
  isOn: boolean;
  /** Of the record's own speed, as {@link ListeningSettings.speed}. */
  startSpeed: number;
  /** Added after each so many times through. */
  stepSpeed: number;
  times: number;
  /** Reached, it stays. */
  endSpeed: number;
}

/** How a record is listened to: plain data, the same on every page, and as JSON. */
export interface ListeningSettings {
  /** Of the record's own speed; the pitch is kept. */
  speed: number;
  /** Half steps by which all is moved. */
  semitones: number;
  /** By how much all is retuned, besides. */
  cents: Cents;
  channels: ChannelChoice;
  /** -1 the left channel alone, 0 both whole, 1 the right one alone: weighed before channels are put together. */
  balance: number;
  band: BandChoice;
  /** What `own` is, chosen or not. */
  ownBand: HertzRange;
  /** How long a loop's end and beginning are heard together, in milliseconds. */
  seamMs: number;
  /** Silence before a loop begins again. */
  gapSec: Seconds;
  /** Bars that are counted in before playing and before each time through a loop; 0 for none. */
  countInBars: number;
  /** How much of the record is heard before a loop's beginning, each time. */
  preRollSec: Seconds;
  ladder: SpeedLadder;
}

/** The least and the most that each number may be. */
export const LISTENING_RANGES = {
  speed: [0.2, 1.5],
  semitones: [-12, 12],
  cents: [-100, 100],
  balance: [-1, 1],
  bandHz: [20, 16_000],
  seamMs: [10, 30],
  gapSec: [0, 10],
  countInBars: [0, 2],
  preRollSec: [0, 10],
  stepSpeed: [0.01, 0.5],
  times: [1, 20],
} as const satisfies Record<string, readonly [number, number]>;

/** The record as it is. */
export const LISTENING_AT_FIRST: ListeningSettings = {
  speed: 1,
  semitones: 0,
  cents: 0,
  channels: "all",
  balance: 0,
  band: "all",
  ownBand: { lowHz: 200, highHz: 2000 },
  seamMs: 20,
  gapSec: 0,
  countInBars: 0,
  preRollSec: 0,
  ladder: { isOn: false, startSpeed: 0.5, stepSpeed: 0.05, times: 2, endSpeed: 1 },
};

/** Own ranges are no narrower than a whole step, so that something is heard. */
const NARROWEST_RATIO = 2 ** (2 / 12);

/**
 * Settings within their ranges, from what may have come from anywhere: what is missing or no number stands as it does in
 * `otherwise`, what is too much is cut to what there is.
 */
export function keptListening(
  given: unknown,
  otherwise: ListeningSettings = LISTENING_AT_FIRST,
): ListeningSettings {
  const from = fieldsOf(given);
  const number = (name: keyof typeof LISTENING_RANGES, value: unknown, other: number, step: number) => {
    const [least, most] = LISTENING_RANGES[name];
    if (typeof value !== "number" || !Number.isFinite(value)) return other;
    // By the reciprocal, so that hundredths come out as they are written.
    const perUnit = Math.round(1 / step);
    return Math.min(most, Math.max(least, Math.round(value * perUnit) / perUnit));
  };
  const ladder = { ...otherwise.ladder, ...fieldsOf(from.ladder) };
  const own = { ...otherwise.ownBand, ...fieldsOf(from.ownBand) };
  const lowHz = number("bandHz", own.lowHz, otherwise.ownBand.lowHz, 1);
  const highHz = number("bandHz", own.highHz, otherwise.ownBand.highHz, 1);
  return {
    speed: number("speed", from.speed, otherwise.speed, 0.01),
    semitones: number("semitones", from.semitones, otherwise.semitones, 1),
    cents: number("cents", from.cents, otherwise.cents, 0.1),
    channels: CHANNEL_CHOICES.find((choice) => choice === from.channels) ?? otherwise.channels,
    balance: number("balance", from.balance, otherwise.balance, 0.01),
    band: BAND_CHOICES.find((choice) => choice === from.band) ?? otherwise.band,
    ownBand: highHz >= lowHz * NARROWEST_RATIO ? { lowHz, highHz } : otherwise.ownBand,
    seamMs: number("seamMs", from.seamMs, otherwise.seamMs, 1),
    gapSec: number("gapSec", from.gapSec, otherwise.gapSec, 0.1),
    countInBars: number("countInBars", from.countInBars, otherwise.countInBars, 1),
    preRollSec: number("preRollSec", from.preRollSec, otherwise.preRollSec, 0.1),
    ladder: {
      isOn: ladder.isOn === true,
      startSpeed: number("speed", ladder.startSpeed, otherwise.ladder.startSpeed, 0.01),
      stepSpeed: number("stepSpeed", ladder.stepSpeed, otherwise.ladder.stepSpeed, 0.01),
      times: number("times", ladder.times, otherwise.ladder.times, 1),
      endSpeed: number("speed", ladder.endSpeed, otherwise.ladder.endSpeed, 0.01),
    },
  };
}

function fieldsOf(given: unknown): Record<string, unknown> {
  return typeof given === "object" && given !== null ? (given as Record<string, unknown>) : {};
}

/** How far all that is heard stands from the record's own pitch. */
export function shiftCents({ semitones, cents }: Pick<ListeningSettings, "semitones" | "cents">): Cents {
  return 100 * semitones + cents;
}
