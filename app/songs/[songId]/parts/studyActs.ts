import { stepBeat } from "@/lib/client/axis/songGrid";
import { isLoopOf } from "@/lib/client/practice/PracticeKeeper";
import { sectionName } from "@/lib/client/song/sectionWords";
import { studyName } from "@/lib/client/song/studyWords";
import { typedBars } from "@/lib/client/song/typedBars";
import { addStudies, editStudy, rubOutStudy, type StudyFields } from "@/lib/document/commands/studies";
import type { ShownSection, ShownStudy } from "@/lib/document/read/SongSnapshot";
import { LONGEST_NAME } from "@/lib/document/records/guards";
import type { Desk } from "./DeskContext";
import { selectedSection, selectedSpan, selectedStudy } from "./selection";

const nameOfSection = (section: ShownSection) => sectionName(section).slice(0, LONGEST_NAME).trim();

/** The acts on passages: on the one that is selected, else on the one at hand. */
export function studyActs(desk: Desk) {
  const { opened, selection, select, atHand, grid, player, say } = desk;
  const { song } = opened;
  const { studies } = song;
  const { run } = opened.acts;
  const chosen = selectedStudy(song, selection) ?? atHand.study;
  const chosenId = chosen?.id;
  /** Sections that no passage lies on yet; one alone, in pencil, is but the whole song. */
  const untaken =
    song.sections.length === 1 && song.sections[0]?.mark === "pencil"
      ? []
      : song.sections.filter((section) => !studies.some((study) => isLoopOf(section, study)));

  function choose(study: ShownStudy) {
    atHand.take(study);
    select({ kind: "study", id: study.id });
  }

  /** Writes passages and takes the first in hand. @returns whether they were taken */
  function add(fields: readonly StudyFields[]): boolean {
    const [id] = run((ctx) => addStudies(ctx, fields)) ?? [];
    const [first] = fields;
    if (!id || !first) return false;
    atHand.take({ ...first, id, listening: [] });
    select({ kind: "study", id });
    return true;
  }

  function edit(fields: Partial<StudyFields>): boolean {
    return chosenId !== undefined && run((ctx) => editStudy(ctx, chosenId, fields)) !== null;
  }

  return {
    chosen,
    untaken,
    choose,
    /** Makes a passage of what is selected; a section's keeps its name. */
    make() {
      const span = selectedSpan(song, selection, grid);
      if (!span) return say("Select a few bars or a section first; a passage is then made of it.");
      if (selection?.kind === "study") return say("That is a passage already.");
      const section = selectedSection(song, selection);
      const { startSec, endSec } = span;
      const fields = { startSec, endSec, name: section ? nameOfSection(section) : "" };
      if (add([fields]))
        say(`Passage made of ${studyName({ ...fields, name: "" }, grid).toLowerCase()}. F2 names it.`);
    },
    /**
     * Makes a passage of bars that were typed.
     * @returns whether it was taken
     * @throws TypedBarsError
     */
    makeOfBars: (text: string) => add([{ ...typedBars(text, grid), name: "" }]),
    /** Makes a passage of every section that none lies on yet, in one act. */
    takeSections() {
      const fields = untaken.map((section) => {
        return { startSec: section.startSec, endSec: section.endSec, name: nameOfSection(section) };
      });
      if (fields.length > 0) add(fields);
    },
    /** The passage before or after; with none at hand, the one at the playhead. */
    step(direction: -1 | 1) {
      const at = chosen ? studies.findIndex(({ id }) => id === chosen.id) : -1;
      const next =
        at < 0
          ? (studies.find(({ endSec }) => endSec > player.timeSec) ?? studies.at(-1))
          : studies[at + direction];
      if (next) choose(next);
      else if (studies.length === 0) say("There are no passages yet. Select a few bars and press Shift P.");
    },
    putAway() {
      atHand.take(null);
      if (selection?.kind === "study") select(null);
    },
    rename: (name: string) => edit({ name }),
    /** Moves both ends to bars that were typed. @throws TypedBarsError */
    moveToBars: (text: string) => edit(typedBars(text, grid)),
    moveEdge(edge: "start" | "end", direction: -1 | 1) {
      if (!chosen) return;
      const edgeSec = edge === "start" ? chosen.startSec : chosen.endSec;
      const toSec = grid ? stepBeat(grid, edgeSec, direction) : Math.max(0, edgeSec + direction * 0.25);
      const endSec = Math.min(toSec, player.durationSec);
      edit(edge === "start" ? { startSec: toSec } : { endSec });
    },
    type(text: string) {
      if (!chosen || !desk.mayWrite) return;
      if (selection?.kind !== "study") select({ kind: "study", id: chosen.id });
      desk.setTyping(text);
    },
    rubOut() {
      if (!chosen || !run((ctx) => rubOutStudy(ctx, chosen.id))) return;
      if (atHand.study?.id === chosen.id) atHand.take(null);
      select(null);
      say(`Passage ${chosen.number} is rubbed out with its counts; Undo or "Put back" brings both back.`);
    },
  };
}
