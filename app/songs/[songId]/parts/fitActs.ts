import { askedEvent, askedStrokes, signOf } from "@/lib/client/fit/askedEvents";
import type { CheckMark } from "@/lib/client/fit/PassageCheck";
import { shortSign } from "@/lib/client/fit/shortSign";
import { beginningWithin } from "@/lib/client/song/beginningWithin";
import { changeNow } from "@/lib/client/sound/changeNotes";
import { keepCheck } from "@/lib/document/commands/practice";
import type { NearNotes } from "@/lib/fit/FitAnswer";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { midiToName } from "@/lib/theory/spelling";
import type { Desk } from "./DeskContext";
import { hearAlone } from "./hearNotes";
import { keyAt, selectedSpan } from "./selection";

/** A check as long as this of one event is one of that event alone; the whole part is meant then. */
const PASSAGE_FROM_EVENTS = 2;

/** A chord is sounded no longer than this. */
const LONGEST_CHORD_SEC = 3;

/** A mark of the last check, and whether its event still says what was checked. */
export interface ShownMark extends CheckMark {
  isStale: boolean;
}

/** Keeps with each passage what of it was found to fit (rule D43 of the shared song). */
function keepFitting({ opened, whole, copedent, guitar }: Desk, marks: readonly CheckMark[]): void {
  const { song, acts } = opened;
  // Seen on another guitar the part is not what is written.
  if (guitar.shownOn) return;
  const byEvent = new Map(marks.map((mark) => [mark.eventId, mark]));
  // What was found of events that are not looked at, of other parts and under covers, stays as it is.
  const own = new Set(song.part.map(({ id }) => id));
  const elsewhere = new Set(whole.parts.flatMap(({ events }) => events.map(({ id }) => id)));
  for (const study of song.studies) {
    const before = study.check?.fits ?? {};
    const strokes = askedStrokes(beginningWithin(song.part, study), song.part, copedent);
    if (!strokes.some(({ eventId }) => byEvent.has(eventId))) continue;
    const fitting = strokes.flatMap((stroke): [string, string][] => {
      const mark = byEvent.get(stroke.eventId);
      const sign = shortSign(stroke);
      const fits =
        mark?.sign === signOf(stroke) ? mark.verdict.kind === "fits" : before[stroke.eventId] === sign;
      return fits ? [[stroke.eventId, sign]] : [];
    });
    const kept = Object.entries(before).filter(([id]) => elsewhere.has(id) && !own.has(id));
    acts.keep((ctx) => keepCheck(ctx, study.id, Object.fromEntries([...kept, ...fitting])));
  }
}

/** The acts that hold the part against the record. */
export function fitActs(desk: Desk) {
  const { opened, fit, copedent, grid, selection, select, say } = desk;
  const { song } = opened;
  const tuningCents = song.tuning?.tuningCents ?? null;

  /** @param passage what is meant whatever is selected, and however few events it has */
  function toCheck(passage: HeardStretch | null = null) {
    const span = passage ?? selectedSpan(song, selection, grid);
    const inside = span && (passage || selection?.kind !== "caret") ? beginningWithin(song.part, span) : [];
    const events = passage || inside.length >= PASSAGE_FROM_EVENTS ? inside : song.part;
    return {
      isWhole: events === song.part,
      asked: askedStrokes(events, song.part, copedent),
    };
  }

  /** Marks of events that still stand, in order of time. */
  function shownMarks(marks: readonly CheckMark[]): ShownMark[] {
    return marks.flatMap((mark) => {
      const event = song.part.find(({ id }) => id === mark.eventId);
      const now = event && askedEvent(event, song.part, copedent);
      return now ? [{ ...mark, isStale: signOf(now) !== mark.sign }] : [];
    });
  }

  function choose(mark: CheckMark) {
    const event = song.part.find(({ id }) => id === mark.eventId);
    if (event)
      select({ kind: "caret", caret: { string: Math.min(...event.strings), timeSec: event.startSec } });
  }

  return {
    /** What a check would hold against the record: the selected passage's events, else the whole part. */
    toCheck,
    shownMarks,
    choose,
    /** Checks a passage, the selected one, or the whole part. */
    async check(passage: HeardStretch | null = null) {
      if (!fit) return;
      const { asked } = toCheck(passage);
      if (asked.length === 0) return say("There is no part to check yet. Write an event first.");
      desk.openCheck(true);
      const isDone = await fit.check.run(asked, tuningCents);
      if (isDone) keepFitting(desk.now(), fit.check.now().marks);
      const { fault } = fit.check.now();
      if (fault) say(fault);
    },
    /** Selects the next mark, or the one before, that wants looking at. */
    step(direction: -1 | 1) {
      const marks = shownMarks(fit?.check.now().marks ?? []).filter(({ verdict }) => verdict.kind !== "fits");
      const atSec = selection?.kind === "caret" ? selection.caret.timeSec : desk.player.timeSec;
      const next =
        direction > 0
          ? (marks.find(({ startSec }) => startSec > atSec + 0.1) ?? marks[0])
          : (marks.findLast(({ startSec }) => startSec < atSec - 0.1) ?? marks.at(-1));
      if (next) choose(next);
      else
        say(
          fit?.check.now().marks.length
            ? "Nothing is marked: all that was checked fits."
            : "Check the part first.",
        );
    },
    /** Sounds the notes of a near miss alone, for as long as what is selected lasts. */
    hear({ notesMidi }: NearNotes, { startSec, endSec }: { startSec: number; endSec: number }) {
      hearAlone(
        desk,
        notesMidi.map((midi) => ({ startSec, endSec, midi, glides: [] })),
      );
    },
    /** Sounds a chord as bass and chord, for as long as what is selected lasts, some seconds at most. */
    hearChord(label: string, { startSec, endSec }: { startSec: number; endSec: number }) {
      const lengthSec = Math.min(LONGEST_CHORD_SEC, endSec - startSec);
      void desk.steel.soundBand(
        changeNow({ startSec: 0, endSec: lengthSec, label }, 1, tuningCents ?? 0),
        false,
      );
    },
    /** Hands the notes of a near miss to the bench, in place of the selected event. */
    toBench({ notesMidi }: NearNotes, timeSec: number) {
      const key = keyAt(song, timeSec);
      desk.nameOnBench(
        [...notesMidi]
          .reverse()
          .map((midi) => midiToName(midi, key))
          .join(" "),
      );
      say("Choose on the bench where these notes lie; the event is then changed.");
    },
  };
}
