import { barAt, placeWords } from "@/lib/client/axis/songGrid";
import { keepInView } from "@/lib/client/axis/timeAxis";
import { clockText } from "@/lib/client/format/format";
import { askedGuess } from "@/lib/client/lesson/askedGuess";
import { laneAnswer } from "@/lib/client/lesson/laneAnswer";
import { playedGuess } from "@/lib/client/lesson/playedGuess";
import { typedGuess } from "@/lib/client/lesson/typedGuess";
import { wordsOf } from "@/lib/client/requests/request";
import { partNotesNow } from "@/lib/client/sound/partNotes";
import { look, setCovers } from "@/lib/document/commands/covers";
import { addGuess, type ToldGuess } from "@/lib/document/commands/guesses";
import { targetStretch } from "@/lib/document/read/coverSong";
import { type CoveredFor, WHOLE_SONG } from "@/lib/document/records/covers";
import type { ShownGuess } from "@/lib/document/records/guesses";
import type { Certainty, HeardStretch } from "@/lib/hearing/Hearing";
import { comparisonWords, LANE_WORDS } from "@/lib/lesson/comparisonWords";
import { GUESS_LANES, type GuessLane, type LaneValue } from "@/lib/lesson/GuessValue";
import type { Key } from "@/lib/theory/key";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { capital } from "./changeWords";
import type { Desk } from "./DeskContext";
import { fitActs } from "./fitActs";
import { guessPlaces, laneOf } from "./guessPlaces";
import { heardTuning } from "./heardTuning";
import { hearAlone } from "./hearNotes";
import { homeAt, selectedSpan } from "./selection";

/** Names without an octave are read near it: E4, in the middle of a steel's neck. */
const NEAR_MIDI: Midi = 64;
/** A guess is sounded no longer than this. */
const LONGEST_SEC: Seconds = 2;
/** A guess is kept without its fit where that takes longer. */
const FIT_WITHIN_MS = 4000;

/** What was typed as a guess: what it says, or why it says nothing. */
export interface ReadGuess {
  said: LaneValue | null;
  /** In words; null where it can be read, or nothing is typed. */
  fault: string | null;
}

/** The acts of guessing first: keeping lanes covered, guessing at them, a hint at a time, and looking. */
export function guessActs(desk: Desk) {
  const { whole, covered, guessing, setGuessing, opened, page, grid, player, axis, say } = desk;
  const { run } = opened.acts;
  const copedent = whole.head.copedent;

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

  function openAt(lane: GuessLane, place: HeardStretch) {
    const target = targetsAt(lane, place)[0] ?? WHOLE_SONG;
    const { startSec, endSec } = place;
    setGuessing({ target, lane, startSec, endSec, text: "", hints: [] });
    axis.change((now) => keepInView(now, startSec, 60));
    say(null);
  }

  function read(): ReadGuess {
    if (!guessing || guessing.text.trim() === "") return { said: null, fault: null };
    const { text, lane, startSec } = guessing;
    try {
      const home = lane === "home" ? null : seenHome(startSec);
      return { said: typedGuess(text, lane, { home, copedent, near: NEAR_MIDI }), fault: null };
    } catch (thrown) {
      return { said: null, fault: wordsOf(thrown) };
    }
  }

  /** One's own guesses at the place, the latest first. */
  function here(): ShownGuess[] {
    if (!guessing) return [];
    const { lane, startSec, endSec } = guessing;
    return whole.guesses
      .filter(
        (guess) =>
          guess.by === page.me.id &&
          guess.lane === lane &&
          Math.min(guess.endSec, endSec) - Math.max(guess.startSec, startSec) > (endSec - startSec) / 2,
      )
      .reverse();
  }

  function answer() {
    return guessing && laneAnswer(whole, opened.song, guessing, copedent);
  }

  /** How each of one's own guesses compares that lies there and was not told yet. */
  function toTell(lane: GuessLane, stretch: HeardStretch | null): ToldGuess[] {
    return whole.guesses
      .filter((guess) => guess.by === page.me.id && guess.lane === lane && !guess.outcome)
      .filter(
        (guess) =>
          !stretch || (guess.endSec > stretch.startSec + 0.02 && guess.startSec < stretch.endSec - 0.02),
      )
      .map((guess) => {
        const there = laneAnswer(whole, opened.song, guess, copedent);
        return { id: guess.id, comparison: there.compare(guess), answer: there.said?.value ?? null };
      });
  }

  /** How a guess reads; null where that cannot be told, or takes too long. */
  async function fitOf(said: LaneValue): Promise<Certainty | null> {
    const asked = guessing && askedGuess(said, guessing, copedent, player.durationSec);
    if (!asked || !desk.fit) return null;
    try {
      const signal = AbortSignal.timeout(FIT_WITHIN_MS);
      return (await desk.fit.fitter.ask(asked, opened.song.tuning?.tuningCents ?? null, signal)).fit;
    } catch {
      return null;
    }
  }

  const acts = {
    isCovered,
    seenHome,
    read,
    here,
    answer,
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
      const isAt = (each: GuessLane) => isCovered(each, { startSec: atSec, endSec: atSec + 0.2 });
      const chosen = lane ?? (wanted && isAt(wanted) ? wanted : (acts.lanes.find(isAt) ?? acts.lanes[0]!));
      const isOwnSpan = desk.selection?.kind === "span" && span !== null && chosen !== "home";
      const firstSec = covered.stretches[chosen][0]!.startSec;
      const place = isOwnSpan ? span : placeFor(chosen, isAt(chosen) ? atSec : firstSec);
      openAt(chosen, { startSec: place.startSec, endSec: place.endSec });
    },
    close: () => setGuessing(null),
    /** Goes on to the same place in another lane. */
    turnTo(lane: GuessLane) {
      if (!guessing) return;
      const { startSec } = guessing;
      const isThere = isCovered(lane, { startSec, endSec: startSec + 0.2 });
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
    type(text: string) {
      if (guessing) setGuessing({ ...guessing, text });
    },
    /** Takes notes that were played in for the guess. @returns whether one is open that takes them */
    takePlayed(midis: readonly Midi[]): boolean {
      if (!guessing) return false;
      const text = playedGuess(midis, guessing.lane, seenHome(guessing.startSec));
      if (text !== null) setGuessing({ ...guessing, text });
      return guessing.lane !== "places";
    },
    /** The guess as it is held against the record. */
    asked: () => {
      const { said } = read();
      return guessing && said ? askedGuess(said, guessing, copedent, player.durationSec) : null;
    },
    /** Sounds the guess alone. */
    hear() {
      const { said } = read();
      if (!guessing || !said) return;
      const lengthSec = Math.min(LONGEST_SEC, Math.max(0.5, guessing.endSec - guessing.startSec));
      const stretch = { startSec: 0, endSec: lengthSec };
      player.pause();
      switch (said.lane) {
        case "home":
          return fitActs(desk).hearChord(
            `${said.value.tonic}:${said.value.mode === "major" ? "maj" : "min"}`,
            stretch,
          );
        case "changes":
          return fitActs(desk).hearChord(said.value.label, stretch);
        case "heard":
          return hearAlone(
            desk,
            said.value.midis.map((midi) => ({ ...stretch, midi, glides: [] })),
          );
        case "places": {
          const { strings, fret, changes } = said.value;
          const event = { ...stretch, id: "guess", strings: [...strings], fret, changes: [...changes] };
          void desk.steel.soundSteel(
            partNotesNow([{ ...event, articulation: "pick" }], copedent, heardTuning(desk)),
          );
        }
      }
    },
    /** Plays the place in the record over and over, or stops that. */
    hearRecord() {
      if (!guessing) return;
      const { startSec, endSec } = guessing;
      const { loop, isPlaying } = player.now();
      const isThis = loop?.startSec === startSec && loop.endSec === Math.min(endSec, player.durationSec);
      if (isThis && isPlaying) return player.pause();
      player.setLoop({ startSec, endSec: Math.min(endSec, player.durationSec) });
      if (!isPlaying) void player.play();
    },
    /** Keeps the guess, with how it reads against the record, as far as that is told in time. */
    async keep(): Promise<void> {
      const { said, fault } = read();
      if (fault) say(fault);
      if (!guessing || !said) return;
      const { target, startSec, endSec, hints } = guessing;
      const fit = await fitOf(said);
      const fields = { ...said, target, startSec, endSec, fit, hintCount: hints.length };
      const id = run((ctx) => addGuess(ctx, fields))?.[0];
      if (!id) return;
      say("Your guess is kept. Listen again, take a hint, or uncover.");
      // Uncovered meanwhile, or before it was made: then it is told at once.
      const now = guessActs(desk.now());
      if (!now.isCovered(said.lane, { startSec, endSec })) now.tell(id, said, { startSec, endSec });
    },
    /** Keeps how a guess compares at a place that is not covered. */
    tell(id: string, said: LaneValue, place: HeardStretch) {
      const there = laneAnswer(whole, opened.song, { lane: said.lane, ...place }, copedent);
      const told = { id, comparison: there.compare(said), answer: there.said?.value ?? null };
      run((ctx) => look(ctx, said.lane, [], [told]));
      say(`Your guess: ${comparisonWords(told.comparison)}.`);
    },
    /** One hint more: nothing plainer than that is told before it is asked for. */
    hint() {
      if (!guessing) return;
      const last = read().said ?? here()[0] ?? null;
      const next = answer()
        ?.hints(last)
        .find((hint) => !guessing.hints.includes(hint));
      if (next) setGuessing({ ...guessing, hints: [...guessing.hints, next] });
      else say("There is no plainer hint. Guess once more, or uncover it.");
    },
    /** Looks at the place, or at all of the lane that is covered with it. */
    uncover(isAll: boolean) {
      if (!guessing) return;
      const { lane, target } = guessing;
      const stretch = isAll || lane === "home" ? targetStretch(whole.studies, target) : guessing;
      if (!stretch) return;
      const endSec = Math.min(stretch.endSec, 86_400);
      const place = { startSec: stretch.startSec, endSec };
      const places = targetsAt(lane, place).map((each) => ({
        target: each,
        stretch: each === target && (isAll || lane === "home") ? null : place,
      }));
      const told = toTell(lane, place);
      if (!run((ctx) => look(ctx, lane, places, told))) return;
      const first = told[0];
      say(
        first
          ? `Your guess: ${comparisonWords(first.comparison)}.`
          : `${capital(LANE_WORDS[lane])} uncovered.`,
      );
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
