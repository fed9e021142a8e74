import type { LaneValue } from "@/lib/lesson/GuessValue";
import { C_MAJOR, type Key, keyToWords } from "@/lib/theory/key";
import { chordToLetters, NO_CHORD_TEXT } from "@/lib/theory/numberChart";
import { midiToName } from "@/lib/theory/spelling";

/**
 * A guess or an answer in letters, without numbers of home, so that it says the same whether home is seen or not. Plain
 * text; pages print the signs.
 */
export function guessText(said: LaneValue, home: Key | null): string {
  switch (said.lane) {
    case "home":
      return keyToWords(said.value);
    case "changes":
      return chordToLetters(said.value.label, home ?? C_MAJOR) || NO_CHORD_TEXT;
    case "heard":
      return said.value.midis.map((midi) => midiToName(Math.round(midi), home ?? C_MAJOR)).join(" ");
    case "places": {
      const { strings, fret, changes } = said.value;
      const which = strings.length === 1 ? "string" : "strings";
      const pedals = changes.length > 0 ? `, ${changes.join(" ")}` : "";
      return `${which} ${strings.join(" ")}, fret ${fret}${pedals}`;
    }
  }
}

/** What is typed to say it again. */
export function guessTyped(said: LaneValue): string {
  switch (said.lane) {
    case "home":
      return `${said.value.tonic}${said.value.mode === "minor" ? "m" : ""}`;
    case "changes":
      return said.value.label;
    case "heard":
      return said.value.midis.map((midi) => midiToName(Math.round(midi))).join(" ");
    case "places": {
      const { strings, fret, changes } = said.value;
      return `${strings.join("+")} ${fret}${changes.length > 0 ? ` ${changes.join(" ")}` : ""}`;
    }
  }
}
