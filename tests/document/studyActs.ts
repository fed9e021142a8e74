import { look, setCovers } from "@/lib/document/commands/covers";
import { addGuess } from "@/lib/document/commands/guesses";
import { countClean, countThrough, keepCheck, keepListening } from "@/lib/document/commands/practice";
import { addStudies, editStudy, rubOutStudy } from "@/lib/document/commands/studies";
import { readSong } from "@/lib/document/read/readSong";
import { WHOLE_SONG } from "@/lib/document/records/covers";
import { LISTENING_AT_FIRST } from "@/lib/document/records/ListeningSettings";
import { GUESS_LANES } from "@/lib/lesson/GuessValue";
import type { Dice } from "./dice";
import { type Act, eventId, LABELS, someId } from "./draws";
import type { Replica } from "./replicas";

const studyId = (on: Replica, dice: Dice) => someId(readSong(on.doc).studies, dice);

function study(dice: Dice) {
  return { startSec: dice.timeSec(), endSec: dice.timeSec(), name: dice.of(["", "Intro", " Tag ", "Verse"]) };
}

/** Every command about studies, what was done with them, covers and guesses. */
export const STUDY_ACTS: Readonly<Record<string, Act>> = {
  addStudies: (on, dice) => addStudies(on.ctx, dice.of([[study(dice)], [study(dice), study(dice)]])),
  editStudy: (on, dice) => {
    const name = dice.of(["startSec", "endSec", "name"] as const);
    return editStudy(on.ctx, studyId(on, dice), { [name]: study(dice)[name] });
  },
  rubOutStudy: (on, dice) => rubOutStudy(on.ctx, studyId(on, dice)),
  countThrough: (on, dice) => {
    const times = dice.below(4);
    const device = `device${on.doc.clientID}`;
    return countThrough(on.ctx, studyId(on, dice), device, { times, fullSpeedTimes: dice.below(3) });
  },
  countClean: (on, dice) => {
    const times = dice.below(3);
    const device = `device${on.doc.clientID}`;
    return countClean(on.ctx, studyId(on, dice), device, { times, fullSpeedTimes: dice.below(2) });
  },
  keepListening: (on, dice) => {
    const settings = { ...LISTENING_AT_FIRST, speed: dice.below(18) / 10 };
    return keepListening(on.ctx, studyId(on, dice), { settings, isLooped: dice.next() < 0.5 });
  },
  keepCheck: (on, dice) => keepCheck(on.ctx, studyId(on, dice), { [eventId(on, dice)]: "sign" }),
  setCovers: (on, dice) =>
    setCovers(
      on.ctx,
      { target: dice.of([WHOLE_SONG, studyId(on, dice)]), lanes: [dice.of(GUESS_LANES)] },
      dice.of(["students", "self"]),
      dice.next() < 0.7,
    ),
  look: (on, dice) => {
    const [startSec, endSec] = [dice.timeSec(), dice.timeSec()];
    const place = {
      target: dice.of([WHOLE_SONG, studyId(on, dice)]),
      stretch: dice.of([{ startSec, endSec }, null]),
    };
    const { guesses } = readSong(on.doc);
    const told = guesses.length > 0 && dice.next() < 0.5 ? [dice.of(guesses)] : [];
    return look(
      on.ctx,
      dice.of(GUESS_LANES),
      [place],
      told.map(({ id, value }) => ({ id, comparison: "same", answer: value })),
    );
  },
  addGuess: (on, dice) => {
    const startSec = dice.timeSec();
    const said = dice.of([
      { lane: "home", value: { tonic: "G", mode: "minor" } },
      { lane: "changes", value: { label: dice.of(LABELS) } },
      { lane: "heard", value: { midis: [60 + dice.below(12)] } },
      { lane: "places", value: { strings: [1 + dice.below(10)], fret: dice.below(13), changes: [] } },
    ] as const);
    const target = dice.of([WHOLE_SONG, studyId(on, dice)]);
    return addGuess(on.ctx, {
      ...said,
      target,
      startSec,
      endSec: dice.timeSec(),
      fit: null,
      hintCount: dice.below(3),
    });
  },
};
