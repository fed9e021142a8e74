import { restore } from "@/lib/document/commands/restore";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { RECORD_KINDS } from "@/lib/document/records/storage";
import { type Act, someId } from "./draws";
import { HEARD_ACTS } from "./heardActs";
import { PART_ACTS } from "./partActs";
import { QUESTION_ACTS } from "./questionActs";
import { STUDY_ACTS } from "./studyActs";

/** Every command that a person has, each with arguments drawn from what the person sees. */
export const ACTS: Readonly<Record<string, Act>> = {
  ...HEARD_ACTS,
  ...PART_ACTS,
  ...QUESTION_ACTS,
  ...STUDY_ACTS,
  restore: (on, dice) => {
    const kind = dice.of(RECORD_KINDS);
    return restore(
      on.ctx,
      kind,
      someId(
        readRubbedOut(on.doc, kind).map((each) => each.record),
        dice,
      ),
    );
  },
};
