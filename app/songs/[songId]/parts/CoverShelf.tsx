"use client";

import { useMemo } from "react";
import controls from "@/app/parts/controls.module.css";
import { dayText, printed } from "@/lib/client/format/format";
import { guessesOf } from "@/lib/client/lesson/guessHistory";
import { guessText } from "@/lib/client/lesson/guessText";
import { outcomeWords } from "@/lib/client/lesson/outcomeWords";
import type { ShownGuess } from "@/lib/document/records/guesses";
import { FIRST_PART } from "@/lib/document/records/storage";
import { fitText } from "@/lib/fit/fitWords";
import { LANE_WORDS } from "@/lib/lesson/comparisonWords";
import { GUESS_LANES, type GuessLane } from "@/lib/lesson/GuessValue";
import { capital } from "./changeWords";
import columns from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { FoldedList } from "./FoldedList";
import { GuessProgress } from "./GuessProgress";
import styles from "./guess.module.css";
import { guessActs } from "./guessActs";

/**
 * Which lanes of a passage, or of the whole song, are kept covered and for whom; the way to a guess; and how guesses
 * went, week by week.
 */
export function CoverShelf({ target }: { target: string }) {
  const desk = useDesk();
  const { whole, page, mayWrite, nameOf } = desk;
  const acts = guessActs(desk);
  const covers = whole.covers.filter((cover) => cover.target === target);
  const ofTeacher = covers.filter(({ coveredFor }) => coveredFor === "students");
  const own = covers.filter((cover) => cover.coveredFor === "self" && cover.by === page.me.id);
  const isTeacher = page.role === "teacher";
  const mine = isTeacher
    ? own
    : covers.filter((cover) => cover.coveredFor === "students" || own.includes(cover));
  const looked = whole.looks.filter((look) => look.target === target && look.by === page.me.id);
  const mayCoverAgain = mine.filter(({ lane, stamp }) =>
    looked.some((look) => look.lane === lane && look.seen.includes(stamp)),
  );
  const again = [...new Set(mayCoverAgain.map(({ lane }) => lane))];
  const guesses = useMemo(() => guessesOf(whole.guesses, target, null), [whole.guesses, target]);

  return (
    <section className={styles.shelf} aria-label="Guess first">
      <h3>Guess first</h3>
      {isTeacher && mayWrite ? (
        <Toggles
          words="Covered for students"
          lanes={ofTeacher.map(({ lane }) => lane)}
          set={(lane, isOn) => acts.cover(target, [lane], "students", isOn)}
        />
      ) : null}
      {!isTeacher && ofTeacher.length > 0 ? (
        <p>
          {nameOf(ofTeacher[0]!.by)} keeps {ofTeacher.map(({ lane }) => LANE_WORDS[lane]).join(", ")} covered.
        </p>
      ) : null}
      {mayWrite ? (
        <Toggles
          words="Covered for me"
          lanes={own.map(({ lane }) => lane)}
          set={(lane, isOn) => acts.cover(target, [lane], "self", isOn)}
        />
      ) : null}
      <div className={styles.shelfActs}>
        {mayWrite && acts.lanes.length > 0 ? (
          <button type="button" className={controls.act} onClick={() => acts.open()}>
            Make a guess
          </button>
        ) : null}
        {mayWrite && again.length > 0 ? (
          <button
            type="button"
            className={controls.button}
            onClick={() => acts.cover(target, again, "self", true)}
          >
            Cover again
          </button>
        ) : null}
      </div>
      <GuessProgress guesses={guesses} />
      {guesses.length > 0 ? (
        <FoldedList summary={`Guesses (${guesses.length})`}>
          {() => (
            <ul className={styles.history}>
              {guesses.map((guess) => (
                <Kept key={guess.id} guess={guess} />
              ))}
            </ul>
          )}
        </FoldedList>
      ) : null}
    </section>
  );
}

function Toggles({
  words,
  lanes,
  set,
}: {
  words: string;
  lanes: readonly GuessLane[];
  set: (lane: GuessLane, isOn: boolean) => void;
}) {
  return (
    <fieldset className={styles.toggles}>
      <legend>{words}</legend>
      <div className={styles.lanes}>
        {GUESS_LANES.map((lane) => {
          const isOn = lanes.includes(lane);
          return (
            <button
              key={lane}
              type="button"
              className={controls.toggle}
              aria-pressed={isOn}
              onClick={() => set(lane, !isOn)}
            >
              {lane}
            </button>
          );
        })}
      </div>
    </fieldset>
  );
}

/** One guess as it was made, and, once its maker uncovered it, what stood there. A guess of another is not told before. */
function Kept({ guess }: { guess: ShownGuess }) {
  const desk = useDesk();
  const { nameOf, parts } = desk;
  const { by, lane, part = FIRST_PART, fit, hintCount, outcome, atMs } = guess;
  const isOfPart = lane === "places" && parts.areSeveral;
  const ofPart = isOfPart ? parts.list.find(({ id }) => id === part) : undefined;
  const acts = guessActs(desk);
  const isOthers = by !== desk.page.me.id;
  // Another's guess, or what stood under it, may be the answer.
  const isKept = isOthers && acts.isCovered(lane, guess);
  return (
    <li>
      <span className={columns.marks}>
        {dayText(atMs)}, {nameOf(by)}, {LANE_WORDS[lane]}
        {ofPart ? ` of ${parts.nameOf(ofPart.id)}` : ""}, {acts.placeText(guess)}
      </span>
      {isKept ? (
        <span>covered for you</span>
      ) : (
        <span>
          <b>{printed(guessText(guess, null))}</b>
          {fit === null ? "" : `, fit ${fitText(fit)}`}
          {hintCount > 0 ? `, ${hintCount === 1 ? "one hint" : `${hintCount} hints`}` : ""}
          {outcome ? `. ${capital(outcomeWords(guess))}.` : ". Not uncovered."}
        </span>
      )}
    </li>
  );
}
