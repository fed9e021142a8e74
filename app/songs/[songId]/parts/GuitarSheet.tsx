"use client";

import Link from "next/link";
import { useMemo, useState } from "react";
import { CopedentOptions } from "@/app/copedents/parts/CopedentOptions";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { Sheet } from "@/app/parts/Sheet";
import sheet from "@/app/parts/Sheet.module.css";
import { openNotes, sizeWords } from "@/lib/client/copedents/copedentWords";
import { momentText } from "@/lib/client/format/format";
import { choiceToValue, isPartOn, valueToChoice } from "@/lib/client/song/guitarChoice";
import { partOnGuitar } from "@/lib/client/song/partOnGuitar";
import { pages } from "@/lib/contracts/api";
import { useDesk } from "./DeskContext";
import styles from "./guitar.module.css";
import { guitarActs } from "./guitarActs";
import { useCopedentShelf } from "./useCopedentShelf";

/** On which guitar the part is played, and the ways to see it on another, or to carry it over. */
export function GuitarSheet({ onClose }: { onClose: () => void }) {
  const desk = useDesk();
  const { page, written, parts, guitar, mayWrite, nameOf } = desk;
  const { head, part } = written;
  const acts = guitarActs(desk);
  const { shelf, shared, fault } = useCopedentShelf(page.bookId);
  const name = parts.areSeveral ? parts.nameOf() : "The part";
  const [value, setValue] = useState(() => choiceToValue(guitar.shownOn?.from ?? head.from));

  const choice = useMemo(() => valueToChoice(value, shelf), [value, shelf]);
  const isFromThere = value === choiceToValue(head.from);
  const isOwn = choice ? isPartOn(head, choice) : isFromThere;
  const lying = useMemo(
    () => (choice && !isOwn ? partOnGuitar(part, head.copedent, choice.copedent) : null),
    [choice, isOwn, part, head.copedent],
  );
  const known = choice !== null || isOwn;

  return (
    <Sheet title={`${name}'s guitar`} onClose={onClose}>
      <div className={`${sheet.body} ${styles.sheet}`}>
        <p>
          {name} is played on <strong>{head.copedent.name}</strong>: {sizeWords(head.copedent)}.{" "}
          {head.chosenBy === null || head.chosenAtMs === null
            ? "Nobody has chosen another so far."
            : `Chosen by ${nameOf(head.chosenBy)}, ${momentText(head.chosenAtMs)}; the part keeps its own copy.`}
        </p>
        <label className={controls.field}>
          Another guitar
          <select
            className={controls.input}
            value={known ? value : ""}
            onChange={(event) => setValue(event.target.value)}
          >
            {known ? null : <option value="">choose one</option>}
            {isOwn && !choice ? <option value={value}>{head.copedent.name}</option> : null}
            <CopedentOptions own={shelf?.own} shared={shared} />
          </select>
        </label>
        {choice ? (
          <p className={controls.note}>
            {sizeWords(choice.copedent)}. Open notes, string 1 first:{" "}
            <span className={styles.notes}>{openNotes(choice.copedent)}</span>.{" "}
            <Link href={pages.copedent(choice.from.id)}>Look at its chart</Link>
          </p>
        ) : null}
        {choice?.from.kind === "own" && !isOwn && mayWrite ? (
          <p className={controls.note}>
            {part.length > 0 ? "Shown for you alone, it stays as private as it is. " : null}
            With the part on it, everyone in this book sees its chart: the part keeps a copy.
          </p>
        ) : null}
        {choice && isFromThere && !isOwn ? (
          <p className={controls.note}>It was changed since the part was put on it.</p>
        ) : null}
        <p role="status">{lying ? lyingWords(part.length, lying.flags.size) : null}</p>
        <FaultWords words={fault} />
        <p className={controls.note}>
          <Link href={pages.copedents()}>Make a copedent of your own</Link>
        </p>
        <button
          type="button"
          className={`${controls.link} ${styles.toParts}`}
          onClick={() => {
            onClose();
            parts.openSheet(true);
          }}
        >
          {parts.areSeveral ? "All parts of the song" : "Other parts: a second steel, a fiddle, a bass"}
        </button>
      </div>
      <div className={sheet.acts}>
        {part.length > 0 ? (
          <button
            type="button"
            className={mayWrite ? controls.button : controls.act}
            disabled={!choice || isOwn}
            onClick={() => {
              guitar.showOn(choice);
              onClose();
            }}
          >
            Show it on this guitar, for me
          </button>
        ) : null}
        {mayWrite && part.length > 0 ? (
          <button
            type="button"
            className={controls.act}
            disabled={!choice || isOwn}
            onClick={() => {
              if (choice) void acts.carryOver(choice);
              onClose();
            }}
          >
            Carry the part over
          </button>
        ) : null}
        {mayWrite ? (
          <button
            type="button"
            className={part.length > 0 ? controls.button : controls.act}
            disabled={!choice || isOwn}
            title={part.length > 0 ? "What is written stays, and means what it means there" : undefined}
            onClick={() => {
              if (choice) acts.setOnly(choice);
              onClose();
            }}
          >
            {part.length > 0 ? "Change the guitar alone" : "Play the part on it"}
          </button>
        ) : null}
      </div>
    </Sheet>
  );
}

function lyingWords(count: number, flagged: number): string {
  if (count === 0) return "";
  if (flagged === 0) return "All that is written can be played on it, and sounds the same.";
  const can = count - flagged;
  return `${can} of ${count} events can be played on it as they are; ${flagged === 1 ? "1 cannot, and has" : `${flagged} cannot, and have`} to be placed anew.`;
}
