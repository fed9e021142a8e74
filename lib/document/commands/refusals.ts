/** Why a command was refused, in words for the page. A refused command wrote nothing (rule D17). */
export const REFUSALS = {
  newerVersion:
    "This song was written by a newer Liftbook and can only be read here. Update, then try again.",
  notAPerson: "Only a person can do this. Sign in, then try again.",
  badClock: "The clock gave no time. Nothing was changed; check the clock of this machine.",
  badId: "The new record got an id that cannot be used. Nothing was changed; try again.",
  unknownRecord: "It is not in this song. Nothing was changed; look at the page again.",
  rubbedOut: "Someone has rubbed it out. Nothing was changed; put it back first.",
  notRubbedOut: "It is not rubbed out, so there is nothing to put back.",
  notShown: "It lies under others and cannot be seen. Nothing was changed; move what covers it first.",
  badTime: "A time must be a number of seconds from the start of the record. Nothing was changed.",
  tooShort: "It must end after it starts, by 0.02 seconds or more. Nothing was changed.",
  outside: "The place lies outside it or too near its edge. Nothing was changed; choose a place inside.",
  notNeighbours: "The two do not follow each other. Nothing was changed; choose two in a row.",
  badLabel:
    "This is not a chord label. Nothing was changed; write for example G:maj, D:7, A:min/b3, or N for none.",
  badRun: "Changes of one run must follow each other in time. Nothing was changed; look at what was typed.",
  badMove: "A section is moved by at most half an octave, 5 half steps down to 6 up. Nothing was changed.",
  badKey: "A key is a letter A to G with at most one b or #, and major or minor. Nothing was changed.",
  badBeats: "Beats must be times in order, each with its place in the bar. Nothing was changed.",
  badTuning: "The tuning must lie between 50 cents below and 50 cents above. Nothing was changed.",
  badPitch: "A bass note is a whole number of semitones, from C−1 to G9. Nothing was changed.",
  badNote: "A note's pitch is a number of semitones, from C−1 to G9. Nothing was changed.",
  badGlides:
    "Glides must be in order of time, each with the pitch where it ends and how long it takes. Nothing was changed.",
  badPassageName: "A passage's name may have 40 characters at most. Nothing was changed.",
  badCount:
    "Times through and clean takes are counted in whole numbers, one or more at once. Nothing was counted.",
  badCheck: "What the check found cannot be read, so it was not kept. Check the passage again.",
  badLane: "Home, changes, heard notes and places can be covered. Nothing was changed; choose one of them.",
  underCover:
    "It would reach under a cover, where you do not see what stands. Nothing was changed; guess there first (F4), or uncover it.",
  badGuess: "The guess cannot be read, so it was not kept. Write it again.",
  othersGuess: "Only who made a guess can uncover it. Nothing was changed.",
  noWords: "There are no words yet. Nothing was sent; write what you want to know, or to answer.",
  badWords: "A question or an answer may have 2,000 characters at most. Nothing was sent; shorten it.",
  unknownQuestion: "This question is not in the song any more. Nothing was changed; look at the page again.",
  othersWords:
    "Only who wrote it can word it otherwise or take it back. Nothing was changed; answer it instead.",
  takenBack: "It was taken back. Nothing was changed; put it back first.",
  badName: "A section needs a name of 1 to 40 characters. Nothing was changed.",
  badStrings: "Give one or more different string numbers, from 1. Nothing was changed.",
  badFret: "The fret must be a number from 0 to 36. Nothing was changed.",
  badFrets: "Give each string a fret of its own, from 0 to 36. Nothing was changed.",
  badChanges: "Pedals and levers are named by letters, each once. Nothing was changed.",
  badArticulation:
    "A note is picked, slid, pressed, let off, slid and pressed, or tied. Nothing was changed.",
  badTechniques: "A note is blocked, shaken or touched as a harmonic, each once. Nothing was changed.",
  badCopedent:
    "The chart of this guitar cannot be read. Nothing was changed; open it on its own page and look at what it says.",
  badPartName: "A part's name may have 40 characters at most. Nothing was changed.",
  unknownPart: "This part is not in the song any more. Nothing was changed; look at the page again.",
  firstPart: "The first part of a song stays. Nothing was changed; rub out what is written in it instead.",
  otherPart: "It belongs to another part. Nothing was changed; look at the page again.",
  samePart: "It is in this part already. Nothing was changed; choose another part.",
  badHearing: "What the machine heard cannot be read, so nothing was written. Hear the record again.",
} as const satisfies Record<string, string>;
export type RefusalReason = keyof typeof REFUSALS;

export interface Refusal {
  ok: false;
  reason: RefusalReason;
  /** The reason in words. */
  message: string;
}

/** Thrown inside a command to leave it; never leaves the room. */
export class Refused extends Error {
  override readonly name = "Refused";
  constructor(readonly reason: RefusalReason) {
    super(REFUSALS[reason]);
  }
}

export function refuse(reason: RefusalReason): Refusal {
  return { ok: false, reason, message: REFUSALS[reason] };
}
