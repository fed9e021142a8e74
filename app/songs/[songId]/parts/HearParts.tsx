"use client";

import controls from "@/app/parts/controls.module.css";
import { percentText } from "@/lib/client/format/format";
import { heardBeside } from "@/lib/client/lanes/KeptParts";
import { soundName } from "@/lib/client/song/partAtHand";
import { capital } from "./changeWords";
import { useDesk } from "./DeskContext";
import styles from "./hearParts.module.css";
import { togetherWords } from "./listenWords";
import { soundActs } from "./soundActs";
import { useKeptShown } from "./useParts";

/** Which parts sound beside the one in hand, and how loud each of them is; kept in this browser. */
export function HearParts() {
  const desk = useDesk();
  const { parts } = desk;
  const { list, atHand, kept } = parts;
  const shown = useKeptShown(parts);
  const acts = soundActs(desk);
  const beside = heardBeside(list, atHand.id, shown);
  const chosen = heardBeside(list, atHand.id, { ...shown, isAlone: false });
  const nameOf = ({ id }: { id: string }) => soundName(list, id);
  const areAll = chosen.length === 0 || chosen.length === list.length - 1;
  const together = areAll ? "All together" : capital(togetherWords(nameOf(atHand), chosen.map(nameOf)));
  return (
    <fieldset className={styles.parts} aria-label="Parts that sound">
      {list.map((each) => {
        const { id } = each;
        const name = nameOf(each);
        const isInHand = id === atHand.id;
        const isHeard = isInHand || beside.some((part) => part.id === id);
        const level = shown.levels[id] ?? 1;
        return (
          <div key={id} className={styles.part}>
            {isInHand ? (
              <span className={styles.inHand} title={`${name}, in hand, always sounds`}>
                {name}
                <span className="unseen">, in hand</span>
              </span>
            ) : (
              <button
                type="button"
                className={styles.switch}
                aria-pressed={isHeard}
                title={isHeard ? `${name} sounds: silence it` : `${name} is silent: let it sound`}
                onClick={() => acts.switchPart(id)}
              >
                {name}
                <span className="unseen"> sounds</span>
              </button>
            )}
            <input
              type="range"
              aria-label={`level of ${name}`}
              title={`${name}, ${percentText(level)}`}
              min={0}
              max={100}
              step={5}
              value={Math.round(level * 100)}
              disabled={!isHeard}
              aria-valuetext={percentText(level)}
              onChange={(event) => kept.setLevel(id, Number(event.target.value) / 100)}
            />
          </div>
        );
      })}
      <button type="button" className={controls.link} onClick={acts.turnBeside}>
        {beside.length === 0 ? together : capital(togetherWords(nameOf(atHand), []))}
      </button>
    </fieldset>
  );
}
