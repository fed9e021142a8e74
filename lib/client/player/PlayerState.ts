import { LISTENING_AT_FIRST, type ListeningSettings } from "@/lib/document/records/ListeningSettings";
import type { Cents, Seconds } from "@/lib/units/quantities";
import type { DecodeProgress } from "../playback/decodeRecord";
import type { Loop } from "../playback/playbackMessages";

/** How far the record is on its way into memory, from where it can be stretched, moved and looped without a seam. */
export type RecordMemory =
  | { kind: "none" }
  | ({ kind: "coming" } & DecodeProgress)
  | { kind: "ready"; channels: number }
  /** It plays by the media element as before. */
  | { kind: "failed"; because: string };

/** A stretch that is played for itself, as for a take: the loop and the speed of practising are there again when it is left. */
export interface Pass {
  fromSec: Seconds;
  /** Null for the speed that is in use. */
  speed: number | null;
  /** Null for once. */
  loop: Loop | null;
  /** Bars that are counted in before, where beats are known and the record is in memory. */
  countInBars: number;
  /** How the record is heard: as one listens, parts and all; or alone, whole, on the left, or not at all. */
  record: "asListened" | "whole" | "left" | "silent";
}

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
  /** What is being played for itself; null where one practises. */
  pass: Pass | null;
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
  pass: null,
  fault: null,
};
