"use client";

import { useSyncExternalStore } from "react";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { RemovalSheet } from "@/app/parts/RemovalSheet";
import { momentText, percentText } from "@/lib/client/format/format";
import { TAKE_HEARD } from "@/lib/client/takes/takeHeard";
import type { ListedTake } from "@/lib/client/takes/takeStates";
import { takeFaults, takeLine } from "@/lib/client/takes/takeWords";
import { api } from "@/lib/contracts/api";
import { capital, stretchWords } from "./changeWords";
import styles from "./columns.module.css";
import { useDesk } from "./DeskContext";
import { judgeHere } from "./judgeHere";
import { keyAt } from "./selection";
import { takeActs } from "./takeActs";
import { takeRemoval } from "./takeRemoval";
import take_ from "./takes.module.css";
import { unsentWords } from "./unsentWords";
import { useTakeListening, useTakeShelf } from "./useTakeRecorder";

const HEARD_WORDS = { take: "take", both: "both", record: "record" } as const;

/** The selected take: when, how fast and by whom; ways to hear it, to share it and to remove it. */
export function TakeDetails({ id }: { id: string }) {
  const desk = useDesk();
  const { takes } = useTakeShelf(desk);
  const take = takes.find((each) => each.id === id);
  if (!take)
    return (
      <>
        <h2>Take</h2>
        <p>This take is there no more: it was removed, or is kept private again.</p>
      </>
    );
  return <OneTake take={take} />;
}

function OneTake({ take }: { take: ListedTake }) {
  const desk = useDesk();
  const { grid, page, takes } = desk;
  const listening = useTakeListening(desk);
  const { takeId: askedId } = useSyncExternalStore(takeRemoval.watch, takeRemoval.now, takeRemoval.now);
  const acts = takeActs(desk);
  const isHeard = listening.takeId === take.id;
  return (
    <>
      <h2>Take</h2>
      <p className={styles.big}>
        <span>{take.isOwn ? "By you" : `By ${take.ownerName}`}</span>
      </p>
      <p>{capital(stretchWords(grid, take.startSec, take.endSec))}</p>
      <div className={take_.facts}>
        <p>
          {momentText(take.madeAtMs)}, at {percentText(take.speed)}
          {take.delaySec > 0 ? `, moved by ${Math.round(take.delaySec * 1000)} ms for the device` : ""}
        </p>
        <p className={take_.private}>
          {take.isOwn
            ? take.isShared
              ? `Shared: everyone in ${page.bookTitle} hears it`
              : "Private: only you hear it"
            : `Shared by ${take.ownerName}`}
        </p>
        {take.unsent ? (
          <p role="status">
            {capital(unsentWords(take.unsent))}. It is kept in this browser until the server has it.
          </p>
        ) : null}
        <FaultWords words={take.unsent?.fault ?? null} />
      </div>
      <fieldset className={take_.hear} aria-label="Hear the take">
        <div className={controls.toggles}>
          {TAKE_HEARD.map((heard) => (
            <button
              key={heard}
              type="button"
              className={controls.toggle}
              aria-pressed={isHeard && listening.heard === heard}
              title={heard === "both" ? "Record left, take right (Enter)" : `The ${heard} alone`}
              onClick={() => acts.hear(heard)}
            >
              {HEARD_WORDS[heard]}
            </button>
          ))}
        </div>
        <button
          type="button"
          className={controls.button}
          aria-pressed={listening.isLooping}
          onClick={acts.toggleLoop}
        >
          Loop it
        </button>
        {isHeard ? (
          <button type="button" className={controls.button} onClick={() => takes.takes?.listening.stop()}>
            Stop
          </button>
        ) : null}
      </fieldset>
      {isHeard ? (
        <p role="status">
          {listening.isFetching
            ? "Fetching its sound"
            : listening.heard === "both"
              ? `Record left, take right, at ${percentText(take.speed)}`
              : `The ${listening.heard} alone, at ${percentText(take.speed)}`}
        </p>
      ) : null}
      <FaultWords words={listening.fault?.takeId === take.id ? listening.fault.words : null} />
      <Judged take={take} />
      <div className={styles.acts}>
        {take.isOwn ? (
          <>
            {take.unsent?.fault ? (
              <button
                type="button"
                className={controls.button}
                onClick={() => takes.takes?.shelf.sendAgain(take.id)}
              >
                Send it again
              </button>
            ) : null}
            <button
              type="button"
              className={controls.button}
              disabled={take.unsent !== null}
              onClick={() => void acts.toggleShared()}
            >
              {take.isShared ? "Keep it to yourself" : "Share it with the book"}
            </button>
            <button type="button" className={controls.button} onClick={() => void acts.download()}>
              Download the WAV
            </button>
            <button type="button" className={controls.warn} onClick={() => takeRemoval.ask(take.id)}>
              Remove
            </button>
          </>
        ) : null}
      </div>
      {askedId === take.id ? <Removal take={take} /> : null}
    </>
  );
}

/** What came of it when it was held against the part. */
function Judged({ take }: { take: ListedTake }) {
  const desk = useDesk();
  const { opened, grid, player } = desk;
  const { judged } = take;
  const judge = take.isOwn ? (
    <button
      type="button"
      className={`${controls.button} ${take_.judge}`}
      onClick={() => void judgeHere(desk, take.id, false)}
    >
      {judged ? "Hold it against the part again" : "Hold it against the part"}
    </button>
  ) : null;
  if (!judged) return judge;
  const faults = takeFaults(judged, { grid, keyAt: (sec) => keyAt(opened.song, sec) });
  return (
    <>
      <p role="status">{takeLine(judged)}</p>
      <ul className={take_.strokes}>
        {faults.map(({ atSec, words }) => (
          <li key={`${atSec} ${words}`}>
            <button type="button" className={controls.link} onClick={() => player.seek(atSec)}>
              {words}
            </button>
          </li>
        ))}
      </ul>
      {judge}
    </>
  );
}

function Removal({ take }: { take: ListedTake }) {
  const desk = useDesk();
  const { takes, page, select, say } = desk;
  const close = () => takeRemoval.ask(null);
  const gone = () => {
    close();
    select(null);
    say("The take is removed.");
  };
  const shelf = takes.takes?.shelf;
  return (
    <RemovalSheet
      title="Remove this take?"
      address={take.unsent ? null : api.take(page.id, take.id)}
      onRemoved={() => {
        if (take.unsent) void shelf?.drop(take.id);
        else shelf?.forget(take.id);
        gone();
      }}
      onClose={close}
    >
      Its sound goes for good{take.isShared ? `, for everyone in ${page.bookTitle} too` : ""}. Clean takes
      that were counted stay counted. To keep the sound, download it first.
    </RemovalSheet>
  );
}
