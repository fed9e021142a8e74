import { heardWords, whyNotHeard } from "@/lib/client/hearing/passage/passageWords";
import { writePassage } from "@/lib/document/commands/writePassage";
import type { Desk } from "./DeskContext";
import { guessActs } from "./guessActs";
import { selectedSpan } from "./selection";

/** Has the notes of the selection heard in this browser and pencils the steel's, in one act. */
export async function hearAtOnce(desk: Desk): Promise<void> {
  const { opened, selection, grid, hearer, band, mayWrite, say } = desk;
  if (!hearer || !mayWrite) return;
  const { song, acts } = opened;
  const span = selectedSpan(song, selection, grid);
  const whyNot = span ? whyNotHeard(span) : "Select a passage first, such as a few bars of the record.";
  if (!span || whyNot) return say(whyNot);
  if (guessActs(desk).keepsFrom("heard", [span])) return;
  const heard = await hearer.hear(span, song.tuning?.tuningCents ?? null);
  if (!heard) {
    const { fault } = hearer.now();
    if (fault) say(fault);
    return;
  }
  const ids = acts.run((ctx) => writePassage(ctx, heard));
  if (ids === null) return;
  band.takeIn(heard);
  say(heardWords(heard.notes, ids.length > 0));
}
