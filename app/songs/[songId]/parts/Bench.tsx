"use client";

import { useEffect, useMemo } from "react";
import controls from "@/app/parts/controls.module.css";
import { placeWords } from "@/lib/client/axis/songGrid";
import { printed } from "@/lib/client/format/format";
import type { BenchQuestion } from "@/lib/client/places/BenchQuestion";
import { placeLocksOf } from "@/lib/client/places/HeldLocks";
import { wordsOf } from "@/lib/client/requests/request";
import { partAround } from "@/lib/client/song/partAround";
import { pitchNear } from "@/lib/client/song/pitchNear";
import { easeOf } from "@/lib/client/song/placeEase";
import type { PassageWay } from "@/lib/client/song/placePassage";
import { refuseNumbers } from "@/lib/client/song/typedNumbers";
import { wantedPitches } from "@/lib/client/song/wantedPitches";
import { nextWords } from "@/lib/client/song/wayWords";
import { useTrialState } from "@/lib/client/sound/useSteel";
import { addPartEvents } from "@/lib/document/commands/part";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { fretOn } from "@/lib/instrument/frets";
import { sameMembers } from "@/lib/instrument/sameMembers";
import type { NoPlace } from "@/lib/places/NoPlace";
import type { RankedPlace } from "@/lib/places/RankedPlace";
import { midiToName } from "@/lib/theory/spelling";
import type { Midi } from "@/lib/units/quantities";
import styles from "./bench.module.css";
import { benchLocks, useBenchLocks } from "./benchLocks";
import { useDesk } from "./DeskContext";
import { guessActs } from "./guessActs";
import { LockTags } from "./LockTags";
import { LockPanel, PassageBench, PlaceCard } from "./laterParts";
import { NotesField } from "./NotesField";
import { PlayIn } from "./PlayIn";
import { partActs } from "./partActs";
import { fieldsOf, placeKey } from "./placeFields";
import { isHomeUnseen, keyAt } from "./selection";
import { useBenchPlaces } from "./useBenchPlaces";
import { useOfferedPlaces } from "./useOfferedPlaces";
import { useSettled } from "./useSettled";

const SHOWN = 8;

/** Below: where notes lie on the instrument, easiest first: those selected or named, or a passage as a whole. */
export function Bench() {
  const { page, laidOut } = useDesk();
  useEffect(() => benchLocks.begin(page.id), [page.id]);
  return laidOut ? <PassageBench /> : <NotesBench />;
}

function NotesBench() {
  const desk = useDesk();
  const { page, opened, copedent, selection, grid, player, mayWritePart, select, say, onBench, nameOnBench } =
    desk;
  const { text: named, notes: handed } = onBench;
  const { tried } = useTrialState(desk.trial);
  const acts = partActs(desk);
  const { event, caret } = acts;
  const timeSec = caret?.timeSec ?? null;
  const { song } = opened;

  const key = useMemo(() => keyAt(song, timeSec ?? 0), [song, timeSec]);
  const isUnseen = isHomeUnseen(song, timeSec ?? 0);
  const wanted = useMemo<{ midis: Midi[]; fault: string | null }>(() => {
    if (named.trim() === "") return { midis: [], fault: null };
    try {
      if (isUnseen) refuseNumbers(named);
      const near = pitchNear(copedent, song.part, timeSec ?? 0);
      return { midis: wantedPitches(named, { key, near }), fault: null };
    } catch (thrown) {
      return { midis: [], fault: wordsOf(thrown) };
    }
  }, [named, key, isUnseen, copedent, song.part, timeSec]);

  const midis = useMemo(() => {
    if (wanted.midis.length > 0 || wanted.fault) return wanted.midis;
    return event ? stoppedPitches(copedent, event).flatMap((midi) => midi ?? []) : [];
  }, [wanted, event, copedent]);

  const around = useMemo(() => {
    const [first] = handed;
    if (!first) return { instead: [], kept: [] };
    const startSec = Math.min(...handed.map((note) => note.startSec));
    const endSec = Math.max(...handed.map((note) => note.endSec));
    return partAround(song.part, { startSec, endSec }, page.me.id);
  }, [handed, song.part, page.me.id]);
  // What stands there in ink, or in another's pencil, is changed, not written beside.
  const isHandedHere = handed.length > 0 && (!event || around.instead.includes(event.id));
  const glides = handed.some((note) => note.glides.length > 0);
  const { held, isOpen: isLocking } = useBenchLocks();
  const about = [timeSec, event?.id, ...midis].join();
  useEffect(() => benchLocks.turnTo(about), [about]);
  useEffect(() => () => benchLocks.turnTo(null), []);
  const question = useMemo<BenchQuestion | null>(
    () =>
      midis.length === 0
        ? null
        : {
            copedent,
            midis,
            timeSec: timeSec ?? 0,
            key: isUnseen ? undefined : key,
            part: isHandedHere ? song.part.filter(({ id }) => !around.instead.includes(id)) : song.part,
            changes: song.changes,
            event,
            handed,
            kept: around.kept,
            locks: placeLocksOf(held),
            slants: held.slants,
            count: SHOWN,
          },
    [copedent, midis, timeSec, key, isUnseen, song, event, handed, isHandedHere, around, held],
  );
  const found = useBenchPlaces(question, about);
  const { places: shown, whyNone } = found.shown;
  /** How what was handed here goes on from a place, through its glides. */
  const wayFrom = (place: RankedPlace): PassageWay | null =>
    found.shown.ways[shown.findIndex((each) => placeKey(each) === placeKey(place))] ?? null;

  /** @returns whether it was written */
  function choose(place: RankedPlace): boolean {
    const fields = fieldsOf(place);
    if (guessActs(desk).takePlace(fields)) return false;
    let isWritten = true;
    if (isHandedHere) {
      const way = wayFrom(place);
      isWritten =
        way !== null &&
        desk.writePart(
          (ctx) => addPartEvents(ctx, way.events, "ink", around.instead, desk.parts.atHand.id),
          way.events.map(({ startSec }) => startSec),
        ) !== null;
    } else if (event) isWritten = acts.edit(fields);
    else if (caret) isWritten = acts.add(fields);
    // What was to be placed stays on the bench, and why it was refused stays said.
    if (!isWritten) return false;
    if (caret) {
      nameOnBench("");
      select({ kind: "caret", caret: { string: fields.strings[0] ?? caret.string, timeSec: caret.timeSec } });
    } else {
      say("Click a place in the part first, so that it is known when this is played.");
      select({ kind: "caret", caret: { string: fields.strings[0] ?? 1, timeSec: player.timeSec } });
    }
    return caret !== null;
  }

  useOfferedPlaces(shown, {
    about,
    isComing: found.isWaiting,
    instead: isHandedHere ? around.instead : event ? [event.id] : [],
    eventsOf: (place) =>
      (isHandedHere ? wayFrom(place)?.events : null) ?? [
        acts.wouldBe(fieldsOf(place), { string: 1, timeSec: player.timeSec }),
      ],
    write: (place) => choose(place),
  });

  /** @returns whether it was written */
  const takeEasiest = useSettled(found, about, () => {
    const [easiest] = shown;
    return easiest !== undefined && mayWritePart && choose(easiest);
  });

  const isChosen = (place: RankedPlace) =>
    event !== null &&
    sameMembers(event.strings, place.strings) &&
    event.strings.every((string) => fretOn(event, string) === fretOn(place, string)) &&
    sameMembers(event.changes, place.changes);
  const noteNames = [...midis].sort((a, b) => b - a).map((midi) => printed(midiToName(midi, key)));

  return (
    <section
      className={`${styles.bench} ${midis.length === 0 ? styles.resting : isLocking ? styles.withPanel : ""}`}
      data-resting={midis.length === 0 ? "" : undefined}
      aria-label="Where it lies"
    >
      <div className={styles.asked}>
        <div className={styles.heading}>
          <h2>Where it lies</h2>
          {shown.length > 0 && selection?.kind === "caret" ? (
            <p className={`${controls.small} ${styles.keyHint}`}>
              <kbd className={controls.key}>N</kbd> next
            </p>
          ) : null}
        </div>
        <p className={styles.note} hidden={wanted.fault !== null}>
          {noteNames.length > 0
            ? `${noteNames.join(" over ")}${timeSec === null ? "" : ` at ${placeWords(grid, timeSec)}`}`
            : "Select an event of the part, or name one to three notes."}
        </p>
        <NotesField text={named} hasNumbers={!isUnseen} onType={nameOnBench} onTake={takeEasiest} />
        {wanted.fault ? (
          <p className={styles.note} role="alert">
            {wanted.fault}
          </p>
        ) : null}
        <LockTags isResting={midis.length === 0} />
        <PlayIn homeKey={key} />
      </div>
      {midis.length > 0 && isLocking ? (
        <LockPanel held={held} copedent={copedent} midis={midis} event={event} homeKey={key} />
      ) : null}
      <ol className={styles.places} aria-busy={found.isWaiting}>
        {shown.map((place) => (
          <PlaceCard
            key={placeKey(place)}
            place={place}
            then={glides ? wordsAfter(wayFrom(place)) : null}
            ease={easeOf(place, { cost: found.shown.easiestCost })}
            isChosen={isChosen(place)}
            isTried={tried?.key === placeKey(place)}
            disabled={!mayWritePart}
            onChoose={() => choose(place)}
          />
        ))}
        {midis.length > 0 && shown.length === 0 && !found.isWaiting ? (
          <li className={styles.none}>{found.fault ?? noneWords(whyNone)}</li>
        ) : null}
      </ol>
    </section>
  );
}

/** Why there is no place, and what to do. */
function noneWords(whyNone: NoPlace | null): string {
  if (whyNone === null) return "";
  return `${whyNone.words} ${whyNone.because === "locks" ? "Let one off." : "Try an octave higher or lower."}`;
}

/** What rings on from the first event of a way, one step after the other. */
function wordsAfter(way: PassageWay | null): string | null {
  const steps = (way?.events ?? []).filter(
    ({ startSec }, at, all) => all.findIndex((each) => each.startSec === startSec) === at,
  );
  const words = steps.slice(1).map((step, at) => nextWords(steps[at]!, step));
  return words.length === 0 ? null : words.join(", ");
}
