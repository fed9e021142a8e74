import { barAt, placeWords } from "@/lib/client/axis/songGrid";
import { keepInView } from "@/lib/client/axis/timeAxis";
import { clockText } from "@/lib/client/format/format";
import { guessTyped } from "@/lib/client/lesson/guessText";
import { playedGuess } from "@/lib/client/lesson/playedGuess";
import { setCovers } from "@/lib/document/commands/covers";
import { type CoveredFor, WHOLE_SONG } from "@/lib/document/records/covers";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { LANE_WORDS } from "@/lib/lesson/comparisonWords";
import { GUESS_LANES, type GuessedPlace, type GuessLane } from "@/lib/lesson/GuessValue";
import type { Key } from "@/lib/theory/key";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { capital } from "./changeWords";
import type { Desk } from "./DeskContext";
import { guessAtHand } from "./guessAtHand";
import { beginningAt, guessPlaces, laneOf } from "./guessPlaces";
import { homeAt, selectedSpan } from "./selection";

/** The acts of guessing first that lead to a guess and keep what is covered; openGuessActs.ts has those on an open guess. */
export function guessActs(desk: Desk) {
  const { covered, guessing, setGuessing, opened, grid, player, axis, say } = desk;
  const { run } = opened.acts;

  function isCovered(lane: GuessLane, { startSec, endSec }: HeardStretch): boolean {
    return covered.stretches[lane].some(
      (each) => each.endSec > startSec + 0.05 && each.startSec < endSec - 0.05,
    );
  }

  /** Home as it is seen there. */
  function seenHome(timeSec: Seconds): Key | null {
    return homeAt(opened.song, timeSec);
  }

  const { targetsAt, placeFor } = guessPlaces(desk);

  /** @param text what the guess is to begin with */
  function openAt(lane: GuessLane, place: HeardStretch, text = "") {
    const target = targetsAt(lane, place)[0] ?? WHOLE_SONG;
    const { startSec, endSec } = place;
    setGuessing({ target, lane, startSec, endSec, text, hints: [] });
    axis.change((now) => keepInView(now, startSec, 60));
    say(null);
  }

  const acts = {
    isCovered,
    seenHome,
    /** Lanes in which something is covered for this person. */
    lanes: GUESS_LANES.filter((lane) => covered.stretches[lane].length > 0),
    /** Opens the guess: in a lane at a time, else where the selection or the playhead is. */
    open(lane?: GuessLane, timeSec?: Seconds) {
      if (!desk.mayWrite) return say("Listeners read and play; guesses are kept for those who write.");
      if (acts.lanes.length === 0)
        return say('Nothing is covered for you. Cover a lane first, among the steps, under "Guess first".');
      const span = timeSec === undefined ? selectedSpan(opened.song, desk.selection, grid) : null;
      const { study } = desk.atHand;
      const isOff = study && (player.timeSec < study.startSec || player.timeSec >= study.endSec);
      const atSec = timeSec ?? span?.startSec ?? (isOff ? study.startSec : player.timeSec);
      const wanted = lane ?? laneOf(desk);
      const isAt = (each: GuessLane) => isCovered(each, beginningAt(atSec));
      const chosen = lane ?? (wanted && isAt(wanted) ? wanted : (acts.lanes.find(isAt) ?? acts.lanes[0]!));
      const isOwnSpan = desk.selection?.kind === "span" && span !== null && chosen !== "home";
      const firstSec = covered.stretches[chosen][0]!.startSec;
      const place = isOwnSpan ? span : placeFor(chosen, isAt(chosen) ? atSec : firstSec);
      openAt(chosen, { startSec: place.startSec, endSec: place.endSec }, guessAtHand(desk, chosen));
    },
    close: () => setGuessing(null),
    /** Goes on to the same place in another lane. */
    turnTo(lane: GuessLane) {
      if (!guessing) return;
      const { startSec } = guessing;
      const isThere = isCovered(lane, beginningAt(startSec));
      openAt(lane, placeFor(lane, isThere ? startSec : (covered.stretches[lane][0]?.startSec ?? startSec)));
    },
    /** The place before or after. */
    step(direction: -1 | 1) {
      if (!guessing || guessing.lane === "home") return;
      const { lane, startSec, endSec } = guessing;
      const toSec = direction > 0 ? endSec + 0.02 : startSec - 0.02;
      if (toSec <= 0 || toSec >= player.durationSec) return;
      openAt(lane, placeFor(lane, toSec));
    },
    /** Takes notes that were played in for the guess. @returns whether one is open that takes them */
    takePlayed(midis: readonly Midi[]): boolean {
      if (!guessing) return false;
      const text = playedGuess(midis, guessing.lane, seenHome(guessing.startSec));
      if (text !== null) setGuessing({ ...guessing, text });
      return guessing.lane !== "places";
    },
    /** Whether a place that is chosen now is a guess, and not written: one is open that takes it, or the caret lies under a cover. */
    isPlaceGuessed(): boolean {
      const { selection } = desk;
      if (guessing?.lane === "places") return true;
      if (selection?.kind !== "caret") return false;
      return isCovered("places", beginningAt(selection.caret.timeSec));
    },
    /** Takes a place that was chosen or tried for the guess, where it is one. @returns whether it was taken */
    takePlace(place: GuessedPlace): boolean {
      if (!acts.isPlaceGuessed()) return false;
      const text = guessTyped({ lane: "places", value: place });
      const { selection } = desk;
      if (guessing?.lane === "places") setGuessing({ ...guessing, text });
      else if (selection?.kind === "caret")
        openAt("places", placeFor("places", selection.caret.timeSec), text);
      say("It stands in your guess. Hear it against the record; Enter there keeps it.");
      return true;
    },
    /** Keeps a lane covered, for all students or for oneself, or lifts the cover. */
    cover(target: string, lanes: readonly GuessLane[], coveredFor: CoveredFor, isOn: boolean) {
      run((ctx) => setCovers(ctx, { target, lanes }, coveredFor, isOn));
      if (!isOn && guessing && lanes.includes(guessing.lane)) setGuessing(null);
    },
    /**
     * Says so where something would be written under a cover, unseen, and leads to the guess instead.
     * @param places all that would be written on
     * @returns whether it is so
     */
    keepsFrom(lane: GuessLane, places: readonly HeardStretch[]): boolean {
      const kept = places.find((place) => isCovered(lane, place));
      if (!kept) return false;
      acts.open(lane, kept.startSec);
      const are = lane === "home" ? "is" : "are";
      say(`${capital(LANE_WORDS[lane])} ${are} covered there, so nothing was written: make your guess.`);
      return true;
    },
    /** Where a guess was made, in words. */
    placeText({ lane, startSec, endSec }: { lane: GuessLane } & HeardStretch): string {
      if (lane === "home") return `${clockText(startSec)} to ${clockText(endSec)}`;
      const words = placeWords(grid, startSec);
      if (words === "") return clockText(startSec, true);
      return lane === "changes" && grid && barAt(grid, startSec + 0.02)?.startSec === startSec
        ? words.replace(/ beat 1$/, "")
        : words;
    },
  };
  return acts;
}
