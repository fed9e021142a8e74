import { pencilledIds } from "@/lib/client/song/pencilledIds";
import {
  addSection,
  inkSections,
  moveSectionBoundary,
  renameSections,
  rubOutSection,
} from "@/lib/document/commands/sections";
import type { Desk } from "./DeskContext";
import { selectedSpan } from "./selection";
import { stretchActs } from "./stretchActs";

/** What a section is called until its writer has named it. */
const NEW_NAME = "Section";

/** The acts on the selected section; each does nothing where none is selected. */
export function sectionActs(desk: Desk) {
  const { opened, selection, select, setTyping, grid } = desk;
  const { sections } = opened.song;
  const shared = stretchActs(desk, "section", sections, {
    ink: inkSections,
    rubOut: rubOutSection,
    moveEdge: moveSectionBoundary,
  });
  const { chosen: section } = shared;
  const { run } = opened.acts;
  /** Ids of the selected one and of all that repeat it. */
  const ofLabel = sections.filter((each) => each.label === section?.label);
  const alike = [...new Set(ofLabel.map((each) => each.id))];

  return {
    ...shared,
    section,
    alike,
    /** @returns whether the name was taken */
    rename(name: string, onlyThis: boolean): boolean {
      if (!section) return false;
      const ids = onlyThis ? [section.id] : alike;
      return run((ctx) => renameSections(ctx, ids, name)) !== null;
    },
    type(text: string) {
      if (section && desk.mayWrite) setTyping(text);
    },
    inkAll() {
      run((ctx) => inkSections(ctx, pencilledIds(sections)));
    },
    /** Makes a section of the selected span, to be named at once. */
    add() {
      const span = selectedSpan(opened.song, selection, grid);
      if (!span) return;
      const { startSec, endSec } = span;
      const ids = run((ctx) => addSection(ctx, { startSec, endSec, label: NEW_NAME }));
      if (!ids?.[0]) return;
      select({ kind: "section", id: ids[0], stretch: 0 });
      setTyping("");
    },
  };
}
