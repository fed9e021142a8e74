import type { TakeListeningState } from "@/lib/client/takes/TakeListening";
import type { RecorderState } from "@/lib/client/takes/TakeRecorder";
import type { ListedTake, ShelfState } from "@/lib/client/takes/TakeShelf";
import { useTakesState } from "@/lib/client/takes/useTakes";
import type { Desk } from "./DeskContext";

// What stands in for the states of takes until these are fetched.
const OFF: RecorderState = { step: "off", wish: null, level: 0, deviceName: "" };
const EMPTY: ShelfState = { takes: [], isAtRisk: false };
const STILL: TakeListeningState = {
  takeId: null,
  heard: "both",
  isFetching: false,
  isLooping: false,
  fault: null,
};

/** Where a recording stands. */
export function useTakeRecorder({ takes }: Pick<Desk, "takes">): RecorderState {
  return useTakesState(takes.takes?.recorder, OFF);
}

/** The takes of the song. */
export function useTakeShelf({ takes }: Pick<Desk, "takes">): ShelfState {
  return useTakesState(takes.takes?.shelf, EMPTY);
}

/** Which take is being heard. */
export function useTakeListening({ takes }: Pick<Desk, "takes">): TakeListeningState {
  return useTakesState(takes.takes?.listening, STILL);
}

/** The selected take; null where none is, or it is there no more. */
export function selectedTake({ selection, takes }: Pick<Desk, "selection" | "takes">): ListedTake | null {
  if (selection?.kind !== "take") return null;
  return takes.takes?.shelf.now().takes.find(({ id }) => id === selection.id) ?? null;
}
