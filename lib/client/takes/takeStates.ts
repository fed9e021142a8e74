import type { Take } from "@/lib/contracts/takes";
import type { Seconds } from "@/lib/units/quantities";
import type { TakeHeard } from "./takeHeard";

// How recording, listing and hearing of a song's takes stand: apart from what does it, which pages fetch later.

/** What is to be played along with. */
export interface TakeWish {
  startSec: Seconds;
  endSec: Seconds;
  /** The part in hand; null for the first. */
  partId: string | null;
}

/** Where a recording stands. */
export type RecorderStep = "off" | "asking" | "preparing" | "countingIn" | "recording" | "finishing";

export interface RecorderState {
  step: RecorderStep;
  wish: TakeWish | null;
  /** Of the loudest sample of late, full scale 1. */
  level: number;
  /** The device that is recorded by; empty before it is open. */
  deviceName: string;
}

export const RECORDER_OFF: RecorderState = { step: "off", wish: null, level: 0, deviceName: "" };

/** A take as the page lists it. */
export interface ListedTake extends Take {
  /** Null once the server has it. */
  unsent: {
    /** Of it so much is sent; null while it waits. */
    fraction: number | null;
    /** Why the server did not take it, in words; null where it is only waiting. */
    fault: string | null;
  } | null;
}

export interface ShelfState {
  /** One's own and those that others share, the latest first. */
  takes: readonly ListedTake[];
  /** Some wait that this browser could not keep: closing the page would lose them. */
  isAtRisk: boolean;
}

export const SHELF_EMPTY: ShelfState = { takes: [], isAtRisk: false };

export interface TakeListeningState {
  /** What is being heard, or fetched to be; null where nothing is. */
  takeId: string | null;
  heard: TakeHeard;
  isFetching: boolean;
  isLooping: boolean;
  /** Which take was not heard though it was wanted, and why, in words; null once another is. */
  fault: { takeId: string; words: string } | null;
}

export const NOTHING_HEARD: TakeListeningState = {
  takeId: null,
  heard: "both",
  isFetching: false,
  isLooping: false,
  fault: null,
};
