import { LISTENING_AT_FIRST, type ListeningSettings } from "@/lib/document/records/ListeningSettings";
import type { Cents } from "@/lib/units/quantities";
import type { DecodeProgress } from "../playback/decodeRecord";
import type { Loop } from "../playback/playbackMessages";

/** How far the record is on its way into memory, from where it can be stretched, moved and looped without a seam. */
export type RecordMemory =
  | { kind: "none" }
  | ({ kind: "coming" } & DecodeProgress)
  | { kind: "ready"; channels: number }
  /** It plays by the media element as before. */
  | { kind: "failed"; because: string };

/** What the transport shows. */
export interface PlayerState {
  isPlaying: boolean;
  /** At which it is heard; the pitch is kept. */
  speed: number;
  /** By how much it is heard moved. */
  shiftCents: Cents;
  /** What is wanted, which a record that is not in memory cannot all do. */
  listening: ListeningSettings;
  memory: RecordMemory;
  /** 0 to 1. */
  level: number;
  /** Whether the record is taken out, and only what plays beside it heard. */
  isMuted: boolean;
  isClicking: boolean;
  /** 0 to 1. */
  clickLevel: number;
  loop: Loop | null;
  /** How often the loop has gone back to its start. */
  timesThrough: number;
  /** Looped loud for long. */
  isCautioned: boolean;
  /** Whether notes are being heard in the record, with all else faint. */
  isOnNotes: boolean;
  /** Why the record cannot be played, in words; null while it can. */
  fault: string | null;
}

export const AT_FIRST: PlayerState = {
  isPlaying: false,
  speed: 1,
  shiftCents: 0,
  listening: LISTENING_AT_FIRST,
  memory: { kind: "none" },
  level: 0.8,
  isMuted: false,
  isClicking: false,
  clickLevel: 0.5,
  loop: null,
  timesThrough: 0,
  isCautioned: false,
  isOnNotes: false,
  fault: null,
};
