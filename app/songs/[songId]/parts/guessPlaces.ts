import { barAt, stepBeat } from "@/lib/client/axis/songGrid";
import { targetStretch } from "@/lib/document/read/coverSong";
import { WHOLE_SONG } from "@/lib/document/records/covers";
import type { HeardStretch } from "@/lib/hearing/Hearing";
import type { GuessLane } from "@/lib/lesson/GuessValue";
import type { Seconds } from "@/lib/units/quantities";
import type { Desk } from "./DeskContext";

/** Where no beats are known, a place is so long. */
const BAR_SEC: Seconds = 2;
const BEAT_SEC: Seconds = 0.5;

/** What begins at a time lies under a cover that reaches over so much of it. */
export function beginningAt(startSec: Seconds): HeardStretch {
  return { startSec, endSec: startSec + 0.2 };
}

/** Where guesses are made. */
export function guessPlaces({ whole, page, grid, player }: Desk) {
  /** Whatever is covered there for this person, the passages before the whole song. */
  function targetsAt(lane: GuessLane, { startSec, endSec }: HeardStretch): string[] {
    const isStudent = page.role === "student";
    const lying = whole.covers.filter((cover) => {
      if (cover.lane !== lane) return false;
      if (cover.coveredFor === "students" ? !isStudent : cover.by !== page.me.id) return false;
      const stretch = targetStretch(whole.studies, cover.target);
      return stretch !== null && stretch.endSec > startSec + 0.02 && stretch.startSec < endSec - 0.02;
    });
    return [...new Set(lying.map(({ target }) => target))].sort(
      (a, b) => Number(a === WHOLE_SONG) - Number(b === WHOLE_SONG),
    );
  }

  /** Where a guess is made: home for all that is covered together, a change for a bar, notes and places for a beat. */
  function placeFor(lane: GuessLane, timeSec: Seconds): HeardStretch {
    if (lane === "home") {
      const here = { startSec: timeSec, endSec: timeSec + 0.1 };
      const stretch = targetStretch(whole.studies, targetsAt("home", here)[0] ?? WHOLE_SONG);
      return { startSec: stretch?.startSec ?? 0, endSec: Math.min(stretch?.endSec ?? 0, player.durationSec) };
    }
    if (lane === "changes") {
      const bar = grid && barAt(grid, timeSec + 0.02);
      return bar ?? { startSec: timeSec, endSec: timeSec + BAR_SEC };
    }
    const startSec = grid ? stepBeat(grid, timeSec + 0.04, -1) : timeSec;
    return { startSec, endSec: grid ? stepBeat(grid, startSec + 0.04, 1) : startSec + BEAT_SEC };
  }

  return { targetsAt, placeFor };
}

/** In which lane the selection lies. */
export function laneOf({ selection }: Desk): GuessLane | null {
  switch (selection?.kind) {
    case "change":
    case "bass":
      return "changes";
    case "note":
    case "band":
      return "heard";
    case "caret":
      return "places";
    case "home":
      return "home";
    default:
      return null;
  }
}
