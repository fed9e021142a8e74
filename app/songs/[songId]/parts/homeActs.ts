import { barFor, stepBeat } from "@/lib/client/axis/songGrid";
import { nextGuess } from "@/lib/client/song/guesses";
import { inkHome, rubOutHome, setHome } from "@/lib/document/commands/homes";
import { isSameKey, type Key } from "@/lib/theory/key";
import type { Desk } from "./DeskContext";
import { guessActs } from "./guessActs";
import { homeAt, keyAt, selectedHome, selectedSpan } from "./selection";

/** The acts on the selected home; each does nothing where none is selected. */
export function homeActs(desk: Desk) {
  const { opened, selection, select, grid, player, say } = desk;
  const { song } = opened;
  const home = selectedHome(song, selection);
  const { run } = opened.acts;
  const index = home ? song.homes.indexOf(home) : -1;

  function set({ tonic, mode }: Key) {
    if (home) run((ctx) => setHome(ctx, { startSec: home.startSec, tonic, mode }, home.id));
  }

  return {
    home,
    set,
    /** Selects the home in force at the selection, else at the playhead. */
    choose() {
      const span = selectedSpan(song, selection, grid);
      const there = homeAt(song, span?.startSec ?? player.timeSec);
      if (there) select({ kind: "home", id: there.id });
      else if (desk.covered.stretches.home.length > 0) guessActs(desk).open("home");
      else say("Home is not known yet.");
    },
    /** Says that home changes at the bar of the selection, or of the playhead: the same at first, to be changed at once. */
    addHere() {
      if (!desk.mayWrite) return;
      const span = selectedSpan(song, selection, grid);
      const timeSec = span?.startSec ?? player.timeSec;
      const startSec = grid ? (barFor(grid, timeSec)?.startSec ?? 0) : timeSec;
      if (guessActs(desk).keepsFrom("home", [{ startSec, endSec: startSec + 0.5 }])) return;
      const { tonic, mode } = keyAt(song, startSec);
      const there = song.homes.find((each) => Math.abs(each.startSec - startSec) < 0.02);
      const id = there?.id ?? run((ctx) => setHome(ctx, { startSec, tonic, mode }))?.[0];
      if (!id) return;
      select({ kind: "home", id });
      say("Home can change here: choose it beside the lanes. [ and ] move the place.");
    },
    /** Moves the place where it begins by a beat. */
    moveEdge(edge: "start" | "end", direction: -1 | 1) {
      if (!home || edge === "end") return;
      const { startSec, tonic, mode } = home;
      const toSec = grid ? stepBeat(grid, startSec, direction) : Math.max(0, startSec + direction * 0.25);
      run((ctx) => setHome(ctx, { startSec: toSec, tonic, mode }, home.id));
    },
    step(direction: -1 | 1) {
      const other = song.homes[index + direction];
      if (home && other) select({ kind: "home", id: other.id });
    },
    ink() {
      if (home) run((ctx) => inkHome(ctx, home.id));
    },
    rubOut() {
      if (home && run((ctx) => rubOutHome(ctx, home.id))) select(null);
    },
    /** Goes round the machine's guesses. */
    takeNextGuess() {
      if (!home) return;
      const guess = nextGuess(home.guesses, (each) => isSameKey(each, home));
      if (guess) set(guess);
      else say("The machine had no other guess at home here. Choose one by hand.");
    },
  };
}
