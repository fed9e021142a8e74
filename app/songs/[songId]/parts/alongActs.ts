import type { CommandContext, CommandResult } from "@/lib/document/commands/act";
import type { Seconds } from "@/lib/units/quantities";
import type { Desk } from "./DeskContext";

export type OnIds = (ctx: CommandContext, ids: readonly string[]) => CommandResult;
export type OnId = (ctx: CommandContext, id: string) => CommandResult;

/** What can be done alike with the selected one of a list that lies along the axis; nothing where none is selected. */
export function alongActs<R extends { id: string; endSec: Seconds }>(
  { opened, player }: Desk,
  { list, chosen, select }: { list: readonly R[]; chosen: R | null; select: (one: R) => void },
  commands: { ink: OnIds; rubOut: OnId },
) {
  const index = chosen ? list.indexOf(chosen) : -1;
  const next = chosen ? (list[index + 1] ?? null) : null;
  const before = list[index - 1] ?? null;
  const { run } = opened.acts;

  function choose(one: R | null) {
    if (one) select(one);
  }

  return {
    before,
    next,
    choose,
    /** The one before or after; with none selected, the one at the playhead. */
    step(direction: -1 | 1) {
      if (chosen) choose(direction < 0 ? before : next);
      else choose(list.find((each) => each.endSec > player.timeSec) ?? list.at(-1) ?? null);
    },
    ink() {
      if (chosen) run((ctx) => commands.ink(ctx, [chosen.id]));
    },
    rubOut() {
      if (chosen && run((ctx) => commands.rubOut(ctx, chosen.id))) choose(next ?? before);
    },
  };
}
