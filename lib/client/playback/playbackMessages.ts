import type { ListeningSettings } from "@/lib/document/records/ListeningSettings";
import type { BeatGrid } from "@/lib/notation/barGrid";
import type { Hertz, Seconds } from "@/lib/units/quantities";
import type { Pace } from "./Deck";
import type { Chunk16 } from "./RecordSamples";

/** A stretch that is played over and over. */
export interface Loop {
  startSec: Seconds;
  endSec: Seconds;
}

/** How a loop begins and ends, and how its speed grows. */
export type LoopManner = Pick<
  ListeningSettings,
  "seamMs" | "gapSec" | "countInBars" | "preRollSec" | "ladder"
>;

/** What the record's player is asked for. */
export type PlaybackCommand =
  /** From a second on; counted in where that is wanted and beats are known. */
  | { kind: "play"; sec: Seconds; isCountedIn: boolean }
  /** Stops, and stands at a second. */
  | { kind: "pause"; sec: Seconds }
  /** Goes on from another second. */
  | { kind: "seek"; sec: Seconds }
  | { kind: "pace"; pace: Pace }
  | { kind: "loop"; loop: Loop | null; timesThrough: number }
  | { kind: "manner"; manner: LoopManner }
  | { kind: "beats"; beats: BeatGrid | null }
  /** Whether each beat clicks. */
  | { kind: "clicks"; isOn: boolean };

/** What the page tells the audio thread. Commands are numbered, so that a report says which of them it knows of. */
export type PlaybackMessage =
  | { kind: "open"; rateHz: Hertz; peak: number }
  | { kind: "chunk"; chunk: Chunk16 }
  /** All chunks are there. */
  | { kind: "loaded" }
  | { kind: "command"; number: number; command: PlaybackCommand }
  | { kind: "close" };

/** Where the record's player is. */
export interface PlaybackReport {
  /** The last command it has carried out. */
  number: number;
  isPlaying: boolean;
  /** Whether the record sounds: not while it is counted in, in a gap, or on its way to another place. */
  isSounding: boolean;
  /** Of the record, heard at `atSec`. */
  sec: Seconds;
  /** Of the audio context. */
  atSec: Seconds;
  speed: number;
  timesThrough: number;
  /** Whether it stopped because the record ended. */
  isEnded: boolean;
}

/** What the audio thread tells the page. */
export type PlaybackAnswer =
  /** It can play. */
  | { kind: "ready" }
  /** It cannot: the stretch did not load. */
  | { kind: "failed"; because: string }
  | { kind: "report"; report: PlaybackReport };
