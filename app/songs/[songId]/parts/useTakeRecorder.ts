import {
  type ListedTake,
  NOTHING_HEARD,
  RECORDER_OFF,
  type RecorderState,
  SHELF_EMPTY,
  type ShelfState,
  type TakeListeningState,
} from "@/lib/client/takes/takeStates";
import { useTakesState } from "@/lib/client/takes/useTakes";
import type { Desk } from "./DeskContext";

/** Where a recording stands. */
export function useTakeRecorder({ takes }: Pick<Desk, "takes">): RecorderState {
  return useTakesState(takes.takes?.recorder, RECORDER_OFF);
}

/** The takes of the song. */
export function useTakeShelf({ takes }: Pick<Desk, "takes">): ShelfState {
  return useTakesState(takes.takes?.shelf, SHELF_EMPTY);
}

/** Which take is being heard. */
export function useTakeListening({ takes }: Pick<Desk, "takes">): TakeListeningState {
  return useTakesState(takes.takes?.listening, NOTHING_HEARD);
}

/** The selected take; null where none is, or it is there no more. */
export function selectedTake({ selection, takes }: Pick<Desk, "selection" | "takes">): ListedTake | null {
  if (selection?.kind !== "take") return null;
  return takes.takes?.shelf.now().takes.find(({ id }) => id === selection.id) ?? null;
}
