import { askedGuess } from "@/lib/client/lesson/askedGuess";
import { laneAnswer } from "@/lib/client/lesson/laneAnswer";
import { typedGuess } from "@/lib/client/lesson/typedGuess";
import { wordsOf } from "@/lib/client/requests/request";
import { partNotesNow } from "@/lib/client/sound/partNotes";
import { look } from "@/lib/document/commands/covers";
import { addGuess, type GuessFields, type ToldGuess } from "@/lib/document/commands/guesses";
import { targetStretch } from "@/lib/document/read/coverSong";
import type { ShownGuess } from "@/lib/document/records/guesses";
import { FIRST_PART } from "@/lib/document/records/storage";
import type { Certainty, HeardStretch } from "@/lib/hearing/Hearing";
import { comparisonWords, LANE_WORDS } from "@/lib/lesson/comparisonWords";
import type { GuessLane, LaneValue } from "@/lib/lesson/GuessValue";
import type { Midi, Seconds } from "@/lib/units/quantities";
import { capital } from "./changeWords";
import type { Desk } from "./DeskContext";
import { fitActs } from "./fitActs";
import { guessActs } from "./guessActs";
import { guessPlaces } from "./guessPlaces";
import { heardTuning } from "./heardTuning";
import { hearAlone } from "./hearNotes";

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

/** What is done with a guess while it is open: typing, hearing, hints, keeping and looking. Comes with its panel. */
export function openGuessActs(desk: Desk) {
  const { whole, guessing, setGuessing, opened, page, player, say } = desk;
  const { run } = opened.acts;
  const copedent = whole.head.copedent;
  const partId = desk.parts.atHand.id;
  const around = guessActs(desk);
  const { targetsAt } = guessPlaces(desk);

  function read(): ReadGuess {
    if (!guessing || guessing.text.trim() === "") return { said: null, fault: null };
    const { text, lane, startSec } = guessing;
    try {
      const home = lane === "home" ? null : around.seenHome(startSec);
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
          (lane !== "places" || (guess.part ?? FIRST_PART) === partId) &&
          Math.min(guess.endSec, endSec) - Math.max(guess.startSec, startSec) > (endSec - startSec) / 2,
      )
      .reverse();
  }

  function answer() {
    return guessing && laneAnswer(whole, opened.song, { ...guessing, part: partId });
  }

  /** How each of one's own guesses compares that lies there and was not told yet. */
  function toTell(lane: GuessLane, stretch: HeardStretch): ToldGuess[] {
    return whole.guesses
      .filter((guess) => guess.by === page.me.id && guess.lane === lane && !guess.outcome)
      .filter((guess) => guess.endSec > stretch.startSec + 0.02 && guess.startSec < stretch.endSec - 0.02)
      .map((guess) => {
        const there = laneAnswer(whole, opened.song, guess);
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

  return {
    ...around,
    read,
    here,
    answer,
    type(text: string) {
      if (guessing) setGuessing({ ...guessing, text });
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
      const part = said.lane === "places" && partId !== FIRST_PART ? partId : undefined;
      const fields = { ...said, target, part, startSec, endSec, fit, hintCount: hints.length };
      const id = run((ctx) => addGuess(ctx, fields))?.[0];
      if (!id) return;
      say("Your guess is kept. Listen again, take a hint, or uncover.");
      // Uncovered meanwhile, or before it was made: then it is told at once.
      const now = openGuessActs(desk.now());
      if (!now.isCovered(said.lane, { startSec, endSec })) now.tell(id, fields);
    },
    /** Keeps how a guess compares at a place that is not covered. */
    tell(id: string, guess: GuessFields) {
      const there = laneAnswer(whole, opened.song, guess);
      const told = { id, comparison: there.compare(guess), answer: there.said?.value ?? null };
      run((ctx) => look(ctx, guess.lane, [], [told]));
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
  };
}
