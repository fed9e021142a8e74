import type { BeatGrid } from "@/lib/notation/barGrid";
import type { Seconds } from "@/lib/units/quantities";
import type { Pace } from "../playback/Deck";
import type { Loop, LoopManner } from "../playback/playbackMessages";

/** Which second of a record sounds at a time of the audio context; it goes on at this speed. */
export interface Sounding {
  sec: Seconds;
  atSec: Seconds;
  speed: number;
}

/** Told of what happens to a record that is played. */
export interface PlaybackEvents {
  began(): void;
  stopped(): void;
  /** It stopped because the record ended. */
  ended(): void;
  /** It stands somewhere else. */
  moved(): void;
  /** Time passed: told where frames stop too, as in a hidden tab. */
  passed(): void;
  /** A loop went back to its start. */
  turned(timesThrough: number, speed: number): void;
  failed(words: string): void;
}

/** Plays a record: by the browser's media element, or from memory. */
export interface Playback {
  /** Of the record, as it is heard now. */
  readonly timeSec: Seconds;
  readonly isPaused: boolean;
  /** Whether the record sounds: it may be playing and yet be waiting, counted in, or on its way to another place. */
  readonly isRunning: boolean;
  /** Whether {@link sounding} is known to the sample. */
  readonly isExact: boolean;
  sounding(): Sounding;
  /** @param isCountedIn whether bars are counted in before, where it can */
  play(isCountedIn: boolean): Promise<void>;
  pause(): void;
  seek(timeSec: Seconds): void;
  setPace(pace: Pace): void;
  /** @param timesThrough how often it went round before */
  setLoop(loop: Loop | null, timesThrough: number): void;
  setManner(manner: LoopManner): void;
  setBeats(grid: BeatGrid | null): void;
  setClicking(isClicking: boolean): void;
  /** Called every frame while it plays. */
  look(): void;
  close(): void;
}
