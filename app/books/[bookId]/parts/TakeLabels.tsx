"use client";

import { useEffect, useRef, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { Sheet } from "@/app/parts/Sheet";
import sheet from "@/app/parts/Sheet.module.css";
import { saveFile } from "@/lib/client/page/saveFile";
import { request, wordsOf } from "@/lib/client/requests/request";
import type { LabelsFile, LabelsOrder } from "@/lib/contracts/labels";
import type { LabelKind } from "@/lib/document/labels/Label";
import styles from "./labels.module.css";

const CHOICES: readonly { name: string; kinds: readonly LabelKind[] }[] = [
  { name: "Heard notes", kinds: ["note"] },
  { name: "Changes", kinds: ["change"] },
  { name: "Bass line", kinds: ["bass"] },
  { name: "Sections, with the names they were given", kinds: ["section"] },
  { name: "Homes", kinds: ["home"] },
  { name: "Tuning and beats", kinds: ["tuning", "grid"] },
];

/** How much was taken out, and whether the ear's notes can be measured by it. */
function wordsOfFile({ songs }: LabelsFile): string {
  const count = songs.reduce((sum, { labels }) => sum + Object.values(labels).flat().length, 0);
  const taken = `Downloaded: ${count} ${count === 1 ? "label" : "labels"}.`;
  if (songs.every(({ notesGoneOver }) => notesGoneOver === undefined)) return taken;
  const stretches = songs.flatMap(({ notesGoneOver = [] }) => notesGoneOver);
  const overSec = stretches.reduce((sum, { startSec, endSec }) => sum + endSec - startSec, 0);
  if (stretches.length === 0)
    return `${taken} No notes are gone over so far: that takes a stretch with every note inked, corrected or rubbed out.`;
  return `${taken} Notes are gone over for ${Math.round(overSec)} s.`;
}

/**
 * Lets the owner take out what people made of what was heard, as a file. Nothing is chosen until they choose, and
 * nothing leaves the book but to their own downloads.
 * @param of title of the song or the book
 */
export function TakeLabels({ of, address, onClose }: { of: string; address: string; onClose: () => void }) {
  const [chosen, setChosen] = useState<readonly LabelKind[]>([]);
  const [isReading, setIsReading] = useState(false);
  const [word, setWord] = useState("");
  const [fault, setFault] = useState<string | null>(null);
  const reading = useRef<AbortController | null>(null);
  useEffect(() => () => reading.current?.abort(), []);

  function choose(kinds: readonly LabelKind[], isWanted: boolean) {
    setChosen((before) => [...before.filter((kind) => !kinds.includes(kind)), ...(isWanted ? kinds : [])]);
    setWord("");
  }

  async function take() {
    const controller = new AbortController();
    reading.current = controller;
    setFault(null);
    setWord("");
    setIsReading(true);
    try {
      const order: LabelsOrder = { kinds: [...chosen] };
      const file = await request<LabelsFile>("POST", address, order, controller.signal);
      saveFile({ title: `${of}, labels`, ending: "json", text: JSON.stringify(file) });
      setWord(wordsOfFile(file));
    } catch (thrown) {
      if (!controller.signal.aborted) setFault(wordsOf(thrown));
    } finally {
      setIsReading(false);
    }
  }

  return (
    <Sheet title="Take the labels" size="narrow" onClose={onClose}>
      <div className={`${sheet.body} ${styles.body}`}>
        <p>
          One file of what the machine heard in <strong>{of}</strong> and what people made of it: inked as it
          was, corrected, rubbed out, or written by themselves. It is what the ear can be measured by.
        </p>
        <fieldset className={styles.choices}>
          <legend>What goes into it</legend>
          {CHOICES.map(({ name, kinds }) => (
            <label key={name}>
              <input
                type="checkbox"
                checked={kinds.every((kind) => chosen.includes(kind))}
                disabled={isReading}
                onChange={(event) => choose(kinds, event.target.checked)}
              />
              {name}
            </label>
          ))}
        </fieldset>
        <p className={controls.note}>
          Each with its times in the record and how sure the machine was. No sound goes with it, no titles and
          no names: people are numbered, and the record is named by its checksum (SHA-256), by which you can
          pair the two. What is covered to be guessed is in it too, uncovered. Nothing is sent anywhere; the
          file goes to your downloads.
        </p>
        <FaultWords words={fault} />
      </div>
      <div className={sheet.acts}>
        <button
          type="button"
          className={controls.act}
          disabled={isReading || chosen.length === 0}
          onClick={take}
        >
          Download the file
        </button>
        {isReading ? (
          <button type="button" className={controls.button} onClick={() => reading.current?.abort()}>
            Cancel
          </button>
        ) : null}
        <span className={controls.note} role="status">
          {isReading ? "Reading the labels" : word}
        </span>
      </div>
    </Sheet>
  );
}
