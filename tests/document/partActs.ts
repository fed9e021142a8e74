import { setPartCopedent } from "@/lib/document/commands/head";
import {
  addPartEvent,
  addPartEvents,
  editPartEvent,
  inkPartEvents,
  rubOutPartEvent,
} from "@/lib/document/commands/part";
import {
  copyPartEvents,
  editPartEvents,
  movePartEvents,
  rubOutPartEvents,
} from "@/lib/document/commands/partMany";
import { addPart, namePart, takePartAway } from "@/lib/document/commands/parts";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { E9 } from "@/lib/instrument/copedents/e9";
import { TECHNIQUES } from "@/lib/notation/Technique";
import type { Dice } from "./dice";
import { type Act, allEvents, eventId, partId, someId } from "./draws";
import type { Replica } from "./replicas";

function event(dice: Dice) {
  const startSec = dice.timeSec();
  const strings = [...new Set([1 + dice.below(10), 1 + dice.below(10)])];
  const changes = dice.of([[], ["A"], ["A", "B"], ["E"]]);
  const articulation = dice.of(["pick", "slide", "press", "tie"] as const);
  const techniques = TECHNIQUES.filter(() => dice.next() < 0.3);
  return {
    startSec,
    endSec: startSec + dice.next() * 2,
    strings,
    fret: dice.below(13),
    frets: dice.of([null, null, strings.map(() => dice.below(13))]),
    changes,
    articulation,
    techniques,
  };
}

const eventIn = (on: Replica, part: string, dice: Dice) =>
  someId(
    allEvents(on).filter((each) => each.part === part),
    dice,
  );

const CHARTS = [writeChart(E9), { strings: [64, 60, 57, 55, 52, 48] }, { strings: [] }];

/** Every command about the parts. */
export const PART_ACTS: Readonly<Record<string, Act>> = {
  addPartEvent: (on, dice) =>
    addPartEvent(on.ctx, event(dice), dice.of(["ink", "ink", "pencil"]), partId(on, dice)),
  editPartEvent: (on, dice) => {
    const { startSec, endSec, ...rest } = event(dice);
    const name = dice.of([
      "startSec",
      "endSec",
      "fret",
      "strings",
      "changes",
      "frets",
      "articulation",
      "techniques",
    ] as const);
    const id = eventId(on, dice);
    if (name === "frets") {
      const strings = allEvents(on).find((each) => each.id === id)?.writtenStrings ?? [];
      return editPartEvent(on.ctx, id, { frets: strings.map(() => dice.below(6)) });
    }
    return editPartEvent(on.ctx, id, { [name]: { startSec, endSec, ...rest }[name] });
  },
  inkPartEvents: (on, dice) => inkPartEvents(on.ctx, [eventId(on, dice), eventId(on, dice)]),
  addPartEvents: (on, dice) => {
    const part = partId(on, dice);
    return addPartEvents(
      on.ctx,
      [event(dice), event(dice)],
      dice.of(["ink", "pencil", "pencil"]),
      [eventIn(on, part, dice), eventIn(on, part, dice)],
      part,
    );
  },
  editPartEvents: (on, dice) => {
    const bySec = dice.below(5) / 4;
    const { techniques, articulation, fret } = event(dice);
    const fields = dice.of([{ techniques }, { articulation }, { fret }, null]);
    const part = allEvents(on);
    const ids = [eventId(on, dice), eventId(on, dice), eventId(on, dice)];
    return editPartEvents(
      on.ctx,
      new Map(
        ids.map((id) => {
          const { startSec = 0, endSec = 1 } = part.find((each) => each.id === id) ?? {};
          return [id, fields ?? { startSec: startSec + bySec, endSec: endSec + bySec }];
        }),
      ),
    );
  },
  copyPartEvents: (on, dice) =>
    copyPartEvents(
      on.ctx,
      [1, 2].map(() => ({ event: event(dice), mark: dice.of(["ink", "pencil"]) })),
      partId(on, dice),
    ),
  movePartEvents: (on, dice) => {
    const from = partId(on, dice);
    const ids = [eventIn(on, from, dice), eventIn(on, from, dice)];
    return movePartEvents(on.ctx, new Map(ids.map((id) => [id, event(dice)])), partId(on, dice));
  },
  rubOutPartEvents: (on, dice) => rubOutPartEvents(on.ctx, [eventId(on, dice), eventId(on, dice)]),
  setPartCopedent: (on, dice) => {
    const { strings, fret, frets, changes } = event(dice);
    const part = partId(on, dice);
    const laidAnew = new Map(
      dice
        .of([[], [eventIn(on, part, dice), eventIn(on, part, dice)]])
        .map((id) => [id, { strings, fret, frets, changes }]),
    );
    const guitar = { from: { kind: "own", id: "mine", ownerId: on.by } as const, chart: dice.of(CHARTS) };
    return setPartCopedent(on.ctx, guitar, laidAnew, part);
  },
  addPart: (on, dice) =>
    addPart(on.ctx, {
      ...{ from: { kind: "own", id: "mine", ownerId: on.by }, chart: dice.of(CHARTS) },
      name: dice.of(["", "Fiddle", " Bass ", "x".repeat(41)]),
    }),
  namePart: (on, dice) => namePart(on.ctx, partId(on, dice), dice.of(["", "Second steel", "x".repeat(41)])),
  takePartAway: (on, dice) => takePartAway(on.ctx, partId(on, dice)),
  rubOutPartEvent: (on, dice) => rubOutPartEvent(on.ctx, eventId(on, dice)),
};
