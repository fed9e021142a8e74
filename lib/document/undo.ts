import * as Y from "yjs";
import { QUESTIONS } from "./records/questions";
import { HEADS, isNewer, OTHER_EVENTS, PASSAGES, RECORD_KINDS, recordMap } from "./records/storage";

/** Takes back, and does again, one's own acts (rule D15). */
export interface SongUndo {
  canUndo(): boolean;
  canRedo(): boolean;
  /** Takes back one's last act. False where there was none or the song may only be read. */
  undo(): boolean;
  redo(): boolean;
  /** Calls `listener` whenever what can be undone may have changed; gives the way to stop. */
  watch(listener: () => void): () => void;
  destroy(): void;
}

/**
 * Undo of the acts whose transactions carry `origin`, and of no others. One command is one step. A register that
 * someone else has written since is left as it is.
 */
export function createUndo(doc: Y.Doc, origin: unknown): SongUndo {
  const manager = new Y.UndoManager(
    ([...RECORD_KINDS, OTHER_EVENTS, PASSAGES, HEADS, QUESTIONS] as const).map((kind) =>
      recordMap(doc, kind),
    ),
    { trackedOrigins: new Set([origin]), captureTimeout: 0 },
  );
  return {
    canUndo: () => !isNewer(doc) && manager.canUndo(),
    canRedo: () => !isNewer(doc) && manager.canRedo(),
    undo: () => !isNewer(doc) && manager.undo() !== null,
    redo: () => !isNewer(doc) && manager.redo() !== null,
    watch(listener) {
      const events = ["stack-item-added", "stack-item-popped", "stack-cleared"] as const;
      for (const event of events) manager.on(event, listener);
      return () => {
        for (const event of events) manager.off(event, listener);
      };
    },
    destroy: () => manager.destroy(),
  };
}
