"use client";

import { type KeyboardEvent, useMemo, useState } from "react";
import { Autocomplete } from "react-aria-components/Autocomplete";
import { Input } from "react-aria-components/Input";
import { ListBox, ListBoxItem } from "react-aria-components/ListBox";
import { SearchField } from "react-aria-components/SearchField";
import { flushSync } from "react-dom";
import { type Findable, findActs } from "@/lib/client/acts/findActs";
import styles from "./actSearch.module.css";
import controls from "./controls.module.css";
import { Sheet } from "./Sheet";

/** Something that can be done from here. */
export interface FoundAct extends Findable {
  id: string;
  /** Called once the search is gone and the focus is back where it was. */
  run(): void;
}

/** So many are shown: what is wanted stands among the first after a word or two, and the list never scrolls. */
const SHOWN = 8;

/**
 * The focus comes to what has this as a dialog opens (HTML, "dialog focusing steps"), so that no letter typed at once is lost.
 * React keeps `autoFocus` to itself, and acts on it before the dialog is open.
 */
function focusedFirst(field: HTMLInputElement | null) {
  field?.setAttribute("autofocus", "");
}

/** Finds an act by words and does it: typing narrows the list, arrows walk it, Enter does what is marked. */
export function ActSearch({ acts, onClose }: { acts: readonly FoundAct[]; onClose: () => void }) {
  const [typed, setTyped] = useState("");
  const found = useMemo(() => findActs(acts, typed), [acts, typed]);
  function run(id: unknown) {
    const act = acts.find((each) => each.id === id);
    flushSync(onClose);
    act?.run();
  }
  function onKey(event: KeyboardEvent) {
    const [first] = found;
    // Acts that came only after the words were typed are not marked yet: then Enter does the first.
    const isEnter = event.key === "Enter" && typed !== "" && first !== undefined;
    const isUnmarked = isEnter && !event.currentTarget.hasAttribute("aria-activedescendant");
    // Esc leaves the search, as any sheet; the field would take the first one to empty itself.
    if (event.key !== "Escape" && !isUnmarked) return;
    event.preventDefault();
    event.stopPropagation();
    if (isUnmarked) run(first?.id);
    else onClose();
  }
  return (
    <Sheet title="Do something" onClose={onClose}>
      <div className={styles.search}>
        <Autocomplete inputValue={typed} onInputChange={setTyped}>
          <SearchField aria-label="What do you want to do?">
            <Input
              ref={focusedFirst}
              onKeyDownCapture={onKey}
              className={`${controls.input} ${styles.field}`}
              placeholder="ink, loop, home, slower …"
            />
          </SearchField>
          <ListBox
            className={styles.list}
            aria-label="Acts"
            items={found.slice(0, SHOWN)}
            onAction={run}
            selectionMode="none"
            renderEmptyState={() => (
              <p className={styles.none}>
                Nothing is called that. Take other words, or fewer; the list of keys (?) has everything in
                order.
              </p>
            )}
          >
            {(act) => (
              <ListBoxItem id={act.id} className={styles.act} textValue={act.name}>
                <span className={act.lack === null ? styles.name : styles.lacking}>{act.name}</span>{" "}
                <span className={styles.place}>
                  {act.lack === null ? act.place : `${act.place}. ${act.lack}`}
                </span>{" "}
                {act.label === null ? null : <kbd className={controls.key}>{act.label}</kbd>}
              </ListBoxItem>
            )}
          </ListBox>
        </Autocomplete>
        <p className={styles.count} role="status">
          {countWords(found.length)}
        </p>
      </div>
    </Sheet>
  );
}

function countWords(count: number): string {
  if (count > SHOWN) return `The first ${SHOWN} of ${count}. Type on to come nearer.`;
  return count === 1 ? "1 act" : `${count} acts`;
}
