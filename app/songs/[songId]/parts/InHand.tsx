"use client";

import controls from "@/app/parts/controls.module.css";
import { placeWords } from "@/lib/client/axis/songGrid";
import { printed } from "@/lib/client/format/format";
import { usePassageState } from "@/lib/client/hearing/passage/usePassageHearer";
import { firstWords } from "@/lib/client/questions/questionWords";
import { beginningWithin } from "@/lib/client/song/beginningWithin";
import { nextGuess } from "@/lib/client/song/guesses";
import { isOfSteel } from "@/lib/client/song/heardList";
import { sectionName } from "@/lib/client/song/sectionWords";
import { studyName } from "@/lib/client/song/studyWords";
import { fretWords } from "@/lib/client/song/wayWords";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import { isSameKey, keyToWords } from "@/lib/theory/key";
import { AskButton } from "./AskButton";
import { bassActs } from "./bassActs";
import { beatActs } from "./beatActs";
import { changeActs } from "./changeActs";
import { changeText, numberAndName } from "./changeWords";
import { type Desk, useDesk } from "./DeskContext";
import styles from "./desk.module.css";
import { countWords } from "./eventsWords";
import { hearAtOnce } from "./hearAtOnce";
import { homeActs } from "./homeActs";
import { LoopIt } from "./LoopIt";
import { noteActs } from "./noteActs";
import { partActs } from "./partActs";
import { passageActs } from "./passageActs";
import { questionActs } from "./questionActs";
import { sectionActs } from "./sectionActs";
import { chosenEvents, numberKeyAt, selectedSpan } from "./selection";
import { studyActs } from "./studyActs";
import { TapButton } from "./TapButton";
import { takeActs } from "./takeActs";
import { useTaps } from "./useTaps";

/** What is in hand, by its name, with the acts that a thumb wants most. */
interface Held {
  name: string;
  isPencil: boolean;
  ink?: () => void;
  /** The machine's next guess, and taking it. */
  other?: { name: string; take: () => void } | null;
  next?: () => void;
  rename?: () => void;
  /** Shows where it lies on the instrument. */
  place?: () => void;
  /** Plays its notes where they sound in the record. */
  hear?: () => void;
  /** Plays a take beside the record, or ends it. */
  hearTake?: () => void;
  /** Gives a note of the band to the steel. */
  give?: () => void;
  /** Beats can be tapped: how many were, and laying them where they are enough. */
  tapping?: { count: number; lay: (() => void) | null };
  /** Answers a question. */
  reply?: () => void;
  /** Makes a beat the first of its bar. */
  isOne?: () => void;
}

/** On a narrow screen, where the columns are folded: what is selected, with the acts that are wanted most. */
export function InHand() {
  const desk = useDesk();
  const { opened, selection, grid, mayWrite } = desk;
  const span = selectedSpan(opened.song, selection, grid);
  useTaps(desk.taps);
  if (!span) return null;
  const { name, isPencil, ink, other, next, rename, place, hear, hearTake, give, tapping, isOne, reply } =
    held(desk);
  return (
    <section className={styles.inHand} aria-label="In hand">
      <p>
        <strong>{name}</strong> {placeWords(grid, span.startSec)}
      </p>
      <div className={styles.inHandActs}>
        {mayWrite && isPencil && ink ? (
          <button type="button" className={controls.act} onClick={ink}>
            Ink it
          </button>
        ) : null}
        {mayWrite && other ? (
          <button type="button" className={controls.button} onClick={other.take}>
            or {other.name}
          </button>
        ) : null}
        {mayWrite && rename ? (
          <button type="button" className={controls.button} onClick={rename}>
            Name it
          </button>
        ) : null}
        {mayWrite && give ? (
          <button type="button" className={controls.act} onClick={give}>
            The steel's
          </button>
        ) : null}
        {hear ? (
          <button type="button" className={controls.button} onClick={hear}>
            In the record
          </button>
        ) : null}
        {hearTake ? (
          <button type="button" className={controls.act} onClick={hearTake}>
            Hear it
          </button>
        ) : null}
        {mayWrite && place ? (
          <button type="button" className={controls.button} onClick={place}>
            Into the part
          </button>
        ) : null}
        {mayWrite && isOne ? (
          <button type="button" className={controls.button} onClick={isOne}>
            It is 1
          </button>
        ) : null}
        {mayWrite && tapping ? <TapButton words="Tap" isDownbeat={false} /> : null}
        {mayWrite && tapping?.lay ? (
          <button type="button" className={controls.act} onClick={tapping.lay}>
            Lay {tapping.count}
          </button>
        ) : null}
        {mayWrite && !tapping && !reply && !hearTake ? <HearInHand span={span} /> : null}
        <LoopIt />
        {mayWrite && reply ? (
          <button type="button" className={controls.act} onClick={reply}>
            Reply
          </button>
        ) : (
          <AskButton />
        )}
        {next ? (
          <button type="button" className={controls.button} onClick={next}>
            Next
          </button>
        ) : null}
        <button
          type="button"
          className={controls.button}
          aria-label="Select nothing"
          onClick={() => desk.select(null)}
        >
          ×
        </button>
      </div>
    </section>
  );
}

/** Where no note of the steel was heard so far, the way to have them heard; while that goes on, how far it is. */
function HearInHand({ span }: { span: HeardStretch }) {
  const desk = useDesk();
  const { underWay } = usePassageState(desk.hearer);
  if (!underWay && beginningWithin(desk.opened.song.notes, span).length > 0) return null;
  const percent = underWay && Math.round(underWay.step.fraction * 100);
  return (
    <button
      type="button"
      className={controls.button}
      onClick={() => (underWay ? desk.hearer?.cancel() : hearAtOnce(desk))}
    >
      {underWay ? `Cancel, ${percent} %` : "Hear notes"}
    </button>
  );
}

function held(desk: Desk): Held {
  const { song } = desk.opened;
  const changes = changeActs(desk);
  const { change } = changes;
  if (change) {
    const nameOf = (label: string) => {
      const { degree, rest, letters } = changeText(label, numberKeyAt(song, change.startSec));
      return { short: `${degree}${rest}`, long: `${degree}${rest} ${letters}`.trim() };
    };
    const guess = nextGuess(change.guesses, ({ label }) => label === change.label);
    return {
      name: nameOf(change.label).long,
      isPencil: change.mark === "pencil",
      ink: changes.ink,
      other: guess && { name: nameOf(guess.label).short, take: changes.takeNextGuess },
      next: () => changes.step(1),
    };
  }
  const notes = bassActs(desk);
  if (notes.note) {
    const { midi, startSec, mark } = notes.note;
    return {
      name: `Bass ${numberAndName(midi, song, startSec)}`,
      isPencil: mark === "pencil",
      ink: notes.ink,
      next: () => notes.step(1),
    };
  }
  const heard = noteActs(desk);
  if (heard.note) {
    const { midi, startSec, mark } = heard.note;
    return {
      name: `Heard ${numberAndName(midi, song, startSec)}`,
      isPencil: mark === "pencil",
      ink: heard.ink,
      place: isOfSteel(heard.note) ? heard.toBench : undefined,
      hear: () => heard.hear("record", false),
      next: () => heard.step(1),
    };
  }
  if (heard.chosen) {
    const { midi, startSec } = heard.chosen;
    return {
      name: `Band's ${numberAndName(midi, song, startSec)}`,
      isPencil: false,
      give: heard.turnOver,
      hear: () => heard.hear("record", false),
      next: () => heard.step(1),
    };
  }
  const passage = passageActs(desk);
  const ofPassage =
    passage.notes.length > 0 ? { place: passage.write, hear: () => passage.hear("record") } : {};
  const sections = sectionActs(desk);
  if (sections.section) {
    return {
      name: sectionName(sections.section),
      isPencil: sections.section.mark === "pencil",
      ink: sections.ink,
      rename: () => sections.type(""),
      ...ofPassage,
      next: () => sections.step(1),
    };
  }
  const beats = beatActs(desk);
  const { beat, grid } = beats;
  if (beat !== null && grid) {
    const { taps, fitted } = desk.taps.now();
    const lay = fitted ? () => beats.layTaps("record") : null;
    return {
      name: `Beat ${grid.inBar[beat] ?? 1}`,
      isPencil: song.grid?.mark === "pencil",
      ink: beats.ink,
      tapping: { count: taps.length, lay },
      isOne: grid.inBar[beat] === 1 ? undefined : () => beats.downbeat(beat, "song"),
      next: () => beats.step(1),
    };
  }
  const studies = studyActs(desk);
  if (desk.selection?.kind === "study" && studies.chosen) {
    return {
      name: `${studies.chosen.number} ${studyName(studies.chosen, desk.grid)}`,
      isPencil: false,
      rename: () => studies.type(""),
      ...ofPassage,
      next: () => studies.step(1),
    };
  }
  const questions = questionActs(desk);
  if (questions.chosen) {
    return {
      name: firstWords(questions.chosen),
      isPencil: false,
      reply: questions.reply,
      next: () => questions.step(1),
    };
  }
  const takes = takeActs(desk);
  if (takes.take) {
    return {
      name: takes.take.isOwn ? "Your take" : `Take by ${takes.take.ownerName}`,
      isPencil: false,
      hearTake: () => takes.hear("both"),
      next: () => takes.step(1),
    };
  }
  const homes = homeActs(desk);
  const { home } = homes;
  if (home) {
    const guess = nextGuess(home.guesses, (each) => isSameKey(each, home));
    return {
      name: `Home ${printed(keyToWords(home))}`,
      isPencil: home.mark === "pencil",
      ink: homes.ink,
      other: guess && { name: printed(keyToWords(guess)), take: homes.takeNextGuess },
    };
  }
  if (desk.selection?.kind === "events")
    return { name: countWords(chosenEvents(song, desk.selection).length), isPencil: false };
  const { event, caret, ink } = partActs(desk);
  if (event) {
    const name = `${event.strings.join("·")} fret ${fretWords(event)} ${event.changes.join("+")}`.trim();
    return { name, isPencil: event.mark === "pencil", ink };
  }
  if (caret) return { name: `String ${caret.string}`, isPencil: false };
  return { name: "Selection", isPencil: false, ...ofPassage };
}
