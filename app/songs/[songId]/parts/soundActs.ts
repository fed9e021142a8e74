import { heardBeside } from "@/lib/client/lanes/KeptParts";
import { LISTENS } from "@/lib/client/player/ListenMix";
import { soundName } from "@/lib/client/song/partAtHand";
import { changeNow } from "@/lib/client/sound/changeNotes";
import { partNotesNow } from "@/lib/client/sound/partNotes";
import { capital } from "./changeWords";
import type { Desk } from "./DeskContext";
import { guessActs } from "./guessActs";
import { heardTuning } from "./heardTuning";
import { balanceWords, listenWords, togetherWords } from "./listenWords";
import { ONE_PART } from "./partsActs";
import { homeAt, isHomeUnseen, selectedChange } from "./selection";

/** A change that is played over and over is played so often: for a quarter of an hour or longer, then it is enough. */
const OVER_AND_OVER = 400;
const BALANCE_STEP = 0.25;

/** What is sounded beside the record: the part in hand, others beside it, bass and chords, a drone, a place that is tried. */
export function soundActs(desk: Desk) {
  const { opened, player, steel, trial, copedent, selection, parts, say } = desk;
  const { song } = opened;
  const { kept, atHand } = parts;
  const nameOf = ({ id }: { id: string }) => soundName(parts.list, id);

  /** What is asked to sound is heard. */
  function listenToParts() {
    if (steel.now().listen === "record") void steel.setListen("both");
  }

  function sayWhatSounds() {
    const beside = heardBeside(parts.list, atHand.id, kept.now()).map(nameOf);
    say(`${capital(togetherWords(nameOf(atHand), beside))}.`);
  }

  return {
    /** Record, both, part, and round again. */
    nextListen() {
      void steel.nextListen();
      const beside = heardBeside(parts.list, atHand.id, kept.now()).map(nameOf);
      say(`${capital(listenWords(steel.now().listen, nameOf(atHand), beside))}.`);
    },
    /** Has another part heard beside the one in hand, or not any more. */
    switchPart(id: string) {
      kept.switchSound(id);
      if (heardBeside(parts.list, atHand.id, kept.now()).some((part) => part.id === id)) listenToParts();
      sayWhatSounds();
    },
    /** The part in hand alone, or with those that sound beside it: with all others, where none was chosen. */
    turnBeside() {
      const others = parts.list.filter(({ id }) => id !== atHand.id);
      if (others.length === 0) {
        say(ONE_PART);
        return;
      }
      const { sounding, isAlone } = kept.now();
      if (!others.some(({ id }) => sounding.includes(id)))
        kept.sound([...sounding, ...others.map(({ id }) => id)]);
      else kept.hearAlone(!isAlone);
      listenToParts();
      sayWhatSounds();
    },
    /** Toward the record (-1) or the part (1); it weighs where both are heard. */
    shiftBalance(direction: -1 | 1) {
      steel.setBalance(steel.now().balance + direction * BALANCE_STEP);
      const { balance, listen } = steel.now();
      const words = balanceWords(balance, nameOf(atHand));
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
