import type { CalibrationBounds } from "./fit/checkCalibration";

interface Floor {
  metric: string;
  atLeast: number;
  says: string;
}

const SAYS = {
  tuneWithin5: "tuning within 5 cents, share of the records",
  key: "right key, weighted as MIREX does",
  keyExact: "right key, share of the records",
  homes: "right home, share of the time",
  homesChange: "right home where the key changes, share of the time",
  beatF: "beats within 70 ms",
  beatLevelFree: "beats within 70 ms, at any level",
  downbeatF: "downbeats within 70 ms",
  meterExact: "right meter, share of the records",
  divisionExact: "right division of the beat, share of the records",
  majmin: "right major or minor chord, share of the time",
  majmin_inv: "right major or minor chord and bass, share of the time",
  sevenths: "right chord with its seventh, share of the time",
  bassF: "notes of the bass",
  sectionPairF: "moments that bear one letter, pairwise F",
  seg: "changes neither cut up nor run together",
  noteF: "notes of a passage, F",
  noteP: "notes of a passage, precision",
  slideRecall: "arrivals of slides found",
  dyadRate: "pairs of which both notes are found",
  leadF: "the steel's notes, found and said to be its own",
  glideRecall: "the steel's glides found",
  fitNotesWin: "notes that read higher than all of their near misses",
  fitNotesWinHearable:
    "notes that read higher than their near misses, as far as these can be told by what sounds",
  fitSteelWin: "single notes and pairs of the steel that read higher than all of their near misses",
  fitChordWin: "chords that read higher than all of their near misses",
  fitKeyWin: "keys that read higher than all of their near misses",
  glideMechanismClear: "glides found as pedal or bar, where that can be heard",
} as const;

function floors(values: Partial<Record<keyof typeof SAYS, number>>): Floor[] {
  return Object.entries(values).map(([metric, atLeast]) => ({
    metric,
    atLeast,
    says: SAYS[metric as keyof typeof SAYS],
  }));
}

/** The least that every change must keep, over all records of a set. */
export const FLOORS: Readonly<Partial<Record<string, Floor[]>>> = {
  // What the ear is meant to reach on records that it was not made on, as far as it does.
  A: floors({
    ...{ tuneWithin5: 1, key: 0.94, beatF: 0.91, beatLevelFree: 0.95, downbeatF: 0.82 },
    ...{ majmin: 0.93, majmin_inv: 0.9, sevenths: 0.88, seg: 0.9 },
    ...{ noteF: 0.85, noteP: 0.82, slideRecall: 0.95, dyadRate: 0.98 },
    ...{ fitNotesWin: 0.65, fitNotesWinHearable: 0.8, fitChordWin: 0.72, fitKeyWin: 0.72 },
  }),
  B: floors({
    ...{ tuneWithin5: 1, key: 0.97, homes: 0.95, homesChange: 0.8 },
    ...{ beatF: 0.97, beatLevelFree: 0.99, downbeatF: 0.95 },
    ...{ majmin: 0.96, majmin_inv: 0.94, sevenths: 0.93, seg: 0.95 },
    ...{ noteF: 0.8, noteP: 0.85, dyadRate: 0.85, leadF: 0.82, glideRecall: 0.8, glideMechanismClear: 0.75 },
    ...{ fitNotesWin: 0.55, fitNotesWinHearable: 0.7, fitSteelWin: 0.57, fitChordWin: 0.76, fitKeyWin: 0.72 },
  }),
  // A little under what is measured.
  own: floors({
    ...{ tuneWithin5: 1, key: 0.97, homes: 0.97, homesChange: 0.95 },
    ...{ beatF: 0.97, beatLevelFree: 0.98, downbeatF: 0.95, meterExact: 0.92, divisionExact: 0.84 },
    ...{ majmin: 0.97, majmin_inv: 0.96, sevenths: 0.96, seg: 0.96 },
    ...{ bassF: 0.85, sectionPairF: 0.83 },
  }),
};

/** How far fits must be taken at their word at least, by weights that were fitted without the records of a set. */
export const FIT_CALIBRATION: Readonly<Partial<Record<string, CalibrationBounds>>> = {
  A: { sureRightAtLeast: 0.94, errorAtMost: 0.03 },
  B: { sureRightAtLeast: 0.94, errorAtMost: 0.04 },
};
