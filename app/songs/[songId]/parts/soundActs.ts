import { percentText } from "@/lib/client/format/format";
import { LISTENS, type Listen } from "@/lib/client/player/ListenMix";
import { changeNow } from "@/lib/client/sound/changeNotes";
import { partNotesNow } from "@/lib/client/sound/partNotes";
import { capital } from "./changeWords";
import type { Desk } from "./DeskContext";
import { guessActs } from "./guessActs";
import { heardTuning } from "./heardTuning";
import { homeAt, isHomeUnseen, selectedChange } from "./selection";

/** A change that is played over and over is played so often: for a quarter of an hour or longer, then it is enough. */
const OVER_AND_OVER = 400;
const BALANCE_STEP = 0.25;

/** What one listens to, in words. */
export const LISTEN_WORDS: Readonly<Record<Listen, string>> = {
  record: "the record alone",
  both: "record left, steel right",
  steel: "the steel alone, in the record's time",
};

/** What is sounded beside the record: the steel, bass and chords, a drone, a place that is tried. */
export function soundActs(desk: Desk) {
  const { opened, player, steel, trial, copedent, selection, say } = desk;
  const { song } = opened;

  return {
    /** Record, both, steel, and round again. */
    nextListen() {
      void steel.nextListen();
      const { listen } = steel.now();
      say(`${capital(LISTEN_WORDS[listen])}.`);
    },
    /** Toward the record (-1) or the steel (1); it weighs where both are heard. */
    shiftBalance(direction: -1 | 1) {
      steel.setBalance(steel.now().balance + direction * BALANCE_STEP);
      const { balance, listen } = steel.now();
      const words = balanceWords(balance);
      say(listen === LISTENS[1] ? words : `${words} It is heard once both play: Y leads there.`);
    },
    toggleDrone() {
      const { isDroneOn } = steel.now();
      if (!isDroneOn && !homeAt(song, player.timeSec)) {
        say(
          isHomeUnseen(song, player.timeSec)
            ? "Home is covered here, so there is nothing to hold. Guess home first."
            : "No home is known here, so there is nothing to hold. Find home first.",
        );
        return;
      }
      void steel.setDrone(!isDroneOn);
    },
    toggleBand() {
      const { isBandOn } = steel.now();
      if (!isBandOn && song.changes.length === 0) {
        say("No changes are known yet, so there is nothing to play along.");
        return;
      }
      void steel.setBand(!isBandOn);
    },
    /** The selected change as bass and chord: once, or over and over; asked for while it goes on, that stops it. */
    hearChange(isRepeated: boolean) {
      if (steel.now().isRepeating) {
        steel.stopBand();
        if (isRepeated) return;
      }
      const change = selectedChange(song, selection);
      if (!change) {
        say("Select a change to hear it.");
        return;
      }
      const notes = changeNow(change, isRepeated ? OVER_AND_OVER : 1, heardTuning(desk));
      if (notes.length === 0) say("No chord is played in this change.");
      else void steel.soundBand(notes, isRepeated);
    },
    /** Tries the next place by ear: in the loop where it runs, else at once. Nothing is written. */
    tryNext() {
      trial.next((tried) => {
        if (!tried) {
          say("There is no place to try. Select an event of the part, or name notes on the bench.");
          return;
        }
        const { events } = trial.now();
        const startSec = Math.min(...events.map((event) => event.startSec));
        const { isPlaying, loop } = player.now();
        const isInLoop = isPlaying && loop !== null && startSec >= loop.startSec && startSec < loop.endSec;
        if (!isInLoop) void steel.soundSteel(partNotesNow(events, copedent, heardTuning(desk)));
        else if (steel.now().listen === "record") void steel.setListen("both");
        const enter = guessActs(desk).isPlaceGuessed() ? ", Enter makes it your guess" : ", Enter inks it";
        say(`Trying ${tried.name}, not written. N tries the next${desk.mayWritePart ? enter : ""}.`);
      });
    },
    /** @returns whether a place was being tried */
    writeTried(): boolean {
      if (!desk.mayWritePart) return false;
      return trial.write(({ name }) => say(`${name} is in ink.`));
    },
  };
}

/** How record and steel are weighed, in words. */
export function balanceWords(balance: number): string {
  if (balance === 0) return "Record and steel alike.";
  const less = percentText(1 - Math.abs(balance));
  return balance < 0 ? `Record whole, steel ${less}.` : `Steel whole, record ${less}.`;
}
