import { percentText } from "@/lib/client/format/format";
import type { RecordMemory } from "@/lib/client/player/PlayerState";
import type { BandChoice, ChannelChoice, ListeningSettings } from "@/lib/document/records/ListeningSettings";

export const CHANNEL_WORDS: Readonly<Record<ChannelChoice, string>> = {
  all: "all",
  left: "left",
  right: "right",
  middle: "middle",
  sides: "sides",
};

export const BAND_WORDS: Readonly<Record<BandChoice, string>> = {
  all: "all of it",
  steel: "steel",
  bass: "bass",
  own: "own range",
};

/** Half steps up or down, `2 half steps up`. */
export function semitonesText(semitones: number): string {
  if (semitones === 0) return "as recorded";
  const count = Math.abs(semitones);
  return `${count} half ${count === 1 ? "step" : "steps"} ${semitones > 0 ? "up" : "down"}`;
}

/** Cents with a real minus sign, tenths where there are any. */
export function retuneText(cents: number): string {
  const size = Number.isInteger(cents) ? String(Math.abs(cents)) : Math.abs(cents).toFixed(1);
  return `${cents < 0 ? "−" : "+"}${size} ¢`;
}

/** What differs from the record as it is, in a few words; empty where nothing does. */
export function listeningWords(settings: ListeningSettings, isMuted: boolean, isClicking: boolean): string {
  const { semitones, cents, channels, balance, band, gapSec, countInBars, preRollSec, ladder } = settings;
  const words = [
    isMuted ? "record off" : "",
    semitones === 0 ? "" : `${semitones > 0 ? "+" : "−"}${Math.abs(semitones)}`,
    cents === 0 ? "" : retuneText(cents),
    channels === "all" ? "" : CHANNEL_WORDS[channels],
    balance === 0 ? "" : "weighed",
    band === "all" ? "" : BAND_WORDS[band],
    countInBars === 0 ? "" : "counted in",
    gapSec === 0 ? "" : "gap",
    preRollSec === 0 ? "" : "lead-in",
    ladder.isOn ? "ladder" : "",
    isClicking ? "click" : "",
  ];
  return words.filter((word) => word !== "").join(", ");
}

/** What the record can do now, and when it can do the rest; null where it can do all. */
export function memoryWords(memory: RecordMemory): string | null {
  switch (memory.kind) {
    case "ready":
      return null;
    case "none":
      return "The record is taken into memory when it is first played. Until then it goes from 25 to 100 %, at its own pitch, and is neither counted in nor clicked.";
    case "coming":
      return memory.step === "fetching"
        ? `Taking the record into memory, ${percentText(memory.fraction)}. Until it is there it goes from 25 to 100 %, at its own pitch.`
        : "Decoding the record. Until that is done it goes from 25 to 100 %, at its own pitch.";
    case "failed":
      return `${memory.because} So it plays as it comes: 25 to 100 %, at its own pitch, without counting in or clicks.`;
  }
}
