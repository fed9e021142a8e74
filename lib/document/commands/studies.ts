import { isStudyName } from "../records/guards";
import type { Registers } from "../records/registers";
import { act, type CommandContext, type CommandResult } from "./act";
import { given } from "./given";
import { findStanding } from "./Pen";
import { Refused } from "./refusals";
import { rubOut } from "./rubOut";
import { StudyPen } from "./StudyPen";
import { checkStretch } from "./stretch";

/** Everything a person says of a study: on the page, of a passage. */
export type StudyFields = Registers["study"];

/** Makes studies in ink, in one act, over whatever others there are (rule D40); refused as a whole where one is none. */
export function addStudies(ctx: CommandContext, studies: readonly StudyFields[]): CommandResult {
  return act(ctx, (writes) => {
    const pen = new StudyPen(ctx, writes);
    return studies.map((study) => pen.add(checkStudy(study)));
  });
}

/** Gives a study another name, or moves one or both of its ends. */
export function editStudy(ctx: CommandContext, id: string, fields: Partial<StudyFields>): CommandResult {
  return act(ctx, (writes) => {
    const pen = new StudyPen(ctx, writes);
    const study = findStanding(pen.sheet, id);
    const { startSec, endSec, name } = study.record;
    return pen.ink(study, checkStudy({ startSec, endSec, name, ...given(fields) }));
  });
}

/** Rubs a study out, with what was counted of it; {@link restore} puts both back. */
export function rubOutStudy(ctx: CommandContext, id: string): CommandResult {
  return rubOut(ctx, "study", id);
}

function checkStudy(study: StudyFields): StudyFields {
  const name = typeof study.name === "string" ? study.name.trim() : study.name;
  if (!isStudyName(name)) throw new Refused("badPassageName");
  return { ...checkStretch(study), name };
}
