import { wordsOf } from "@/lib/client/requests/request";
import { partOf } from "@/lib/client/song/partAtHand";
import { playableOn } from "@/lib/client/song/partOnGuitar";
import { countTake } from "@/lib/client/takes/countTake";
import { judgeTakeInWorker } from "@/lib/client/takes/judgeTakeInWorker";
import { takeStrokes } from "@/lib/client/takes/takeStrokes";
import { takeLine } from "@/lib/client/takes/takeWords";
import { beginsWithin } from "@/lib/fit/takes/TakeStroke";
import type { Desk } from "./DeskContext";

/** What is being held against the part now. */
const underWay = new Set<string>();

/**
 * Holds one of one's own takes against the part that it was played from, as one sees it, and keeps what is found with it.
 * What its instrument cannot play is not asked for. Nothing where nothing is written there.
 * @param isNew whether it was just recorded: then it counts for the passages that it is clean for
 */
export async function judgeHere(desk: Desk, id: string, isNew: boolean): Promise<void> {
  const here = desk.takes.takes;
  const take = here?.shelf.now().takes.find((each) => each.id === id);
  if (!here || !take?.isOwn || underWay.has(id)) return;
  try {
    const { head, events } = partOf(desk.written.parts, take.partId);
    const strokes = takeStrokes(playableOn(events, head.copedent), head.copedent);
    const within = (stretch: { startSec: number; endSec: number }) =>
      strokes.filter((stroke) => beginsWithin(stroke.startSec, stretch));
    if (within(take).length === 0) {
      if (!isNew)
        desk.say(
          "Nothing of the part is written where this take was played, so it was held against nothing.",
        );
      return;
    }
    underWay.add(id);
    const { channels } = await here.sounds.samples(id);
    const judged = await judgeTakeInWorker(
      { ...take, channels },
      strokes,
      desk.written.tuning?.tuningCents ?? null,
      {
        onProgress: (fraction) =>
          desk.say(`Holding the take against the part, ${Math.round(fraction * 100)} %. It is kept already.`),
      },
    );
    await here.shelf.keepJudged(id, judged);
    const now = desk.now();
    if (isNew) countTake(now.opened.acts, judged, now.written.studies, within);
    now.say(takeLine(judged));
  } catch (fault) {
    desk.say(wordsOf(fault));
  } finally {
    underWay.delete(id);
  }
}
