"use client";

import { useMemo, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { Sheet } from "@/app/parts/Sheet";
import sheet from "@/app/parts/Sheet.module.css";
import { clockText } from "@/lib/client/format/format";
import { saveFile } from "@/lib/client/page/saveFile";
import type { PartOnGuitar } from "@/lib/client/song/partOnGuitar";
import { toAscii } from "@/lib/notation/asciiText";
import { textTab } from "@/lib/notation/textTab";
import { useDesk } from "./DeskContext";
import styles from "./dialog.module.css";
import { homeAt } from "./selection";

/** The part as text tab, to copy or keep. */
export function TabDialog({ onClose }: { onClose: () => void }) {
  const { page, opened, written, parts, guitar, copedent } = useDesk();
  const [word, setWord] = useState("");
  const { song } = opened;
  const { shownOn, read } = guitar;
  const title = parts.areSeveral ? `${page.title} - ${parts.nameOf()}` : page.title;
  const isHomeKept = song.unseenHome !== undefined;
  const text = useMemo(() => {
    // On its own guitar the tab says itself what that one lacks; on another those letters would mean something else.
    const part = shownOn ? song.part.filter(({ id }) => !read.flags.has(id)) : written.part;
    return (
      textTab({
        title,
        copedent,
        // Where home is covered for who looks, the whole tab has letters: numbers would be counted from another.
        key: isHomeKept ? null : homeAt(song, 0),
        isHomeKept,
        laterHomes: isHomeKept
          ? []
          : song.homes.slice(1).map(({ startSec, tonic, mode }) => ({ startSec, key: { tonic, mode } })),
        grid: song.grid,
        changes: song.changes,
        part,
        tuningCents: song.tuning?.tuningCents,
      }) + (shownOn ? leftOutLines(read.flags) : "")
    );
  }, [title, copedent, song, written.part, shownOn, read, isHomeKept]);

  async function copy() {
    try {
      await navigator.clipboard.writeText(text);
      setWord("Copied.");
    } catch {
      setWord("This browser does not let the page copy. Select the text and copy it by hand.");
    }
  }

  function download() {
    saveFile({ title, ending: "txt", text });
    setWord("Downloaded.");
  }

  return (
    <Sheet title={parts.areSeveral ? `Text tab: ${parts.nameOf()}` : "Text tab"} onClose={onClose}>
      <textarea
        className={styles.tab}
        readOnly
        wrap="off"
        rows={Math.min(28, text.split("\n").length)}
        aria-label="Text tab of the part"
        value={text}
      />
      <div className={sheet.acts}>
        <button type="button" className={controls.act} onClick={copy}>
          Copy
        </button>
        <button type="button" className={controls.button} onClick={download}>
          Download
        </button>
        <span className={controls.note} role="status">
          {word}
        </span>
      </div>
    </Sheet>
  );
}

/** What of the part is not in the tab, since this guitar cannot play it. */
function leftOutLines(flags: PartOnGuitar["flags"]): string {
  if (flags.size === 0) return "";
  const lines = [...flags.values()].map(
    ({ written, reasons }) => `${clockText(written.startSec, true)}  ${reasons.join(" ")}`,
  );
  return ["", "Left out, since this guitar cannot play it:", ...lines.map(toAscii), ""].join("\n");
}
