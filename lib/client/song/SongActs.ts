import type * as Y from "yjs";
import type { CommandContext, CommandResult } from "@/lib/document/commands/act";
import { keepFromCovers } from "@/lib/document/commands/underCovers";
import type { Reader } from "@/lib/document/read/coverSong";
import { createUndo, type SongUndo } from "@/lib/document/undo";

/** Runs commands on the shared song for one person, and takes back that person's own acts. */
export class SongActs {
  readonly undo: SongUndo;
  private readonly origin = { name: "this page" };
  private readonly watch: CommandContext["watch"];

  constructor(
    private readonly doc: Y.Doc,
    private readonly reader: Reader,
    /** False for listeners: then nothing is ever written. */
    readonly mayWrite: boolean,
    /** Told, in words, why an act was refused; null when one went through. */
    private readonly onWord: (message: string | null) => void,
  ) {
    this.undo = createUndo(doc, this.origin);
    this.watch = keepFromCovers(doc, reader);
  }

  /**
   * Runs one command with everything it must know.
   * @returns ids of what it touched, or null where it was refused
   */
  readonly run = (command: (ctx: CommandContext) => CommandResult): string[] | null => {
    if (!this.mayWrite) {
      this.onWord("Listeners read and play; nothing was changed. Ask the book's maker for another role.");
      return null;
    }
    const result = command(this.context());
    this.onWord(result.ok ? null : result.message);
    return result.ok ? result.ids : null;
  };

  /**
   * Runs a command of what is counted and kept beside the song's own words, which the person did not ask for by name: it
   * says nothing, and where it cannot be it is left.
   */
  readonly keep = (command: (ctx: CommandContext) => CommandResult): void => {
    if (this.mayWrite) command(this.context());
  };

  readonly takeBack = (): void => {
    if (this.mayWrite && !this.undo.undo()) this.onWord("Nothing of yours is left to take back.");
  };

  readonly doAgain = (): void => {
    if (this.mayWrite && !this.undo.redo()) this.onWord("Nothing was taken back that could be done again.");
  };

  private context(): CommandContext {
    return {
      doc: this.doc,
      by: this.reader.id,
      nowMs: Date.now(),
      newId: () => crypto.randomUUID(),
      origin: this.origin,
      watch: this.watch,
    };
  }

  close(): void {
    this.undo.destroy();
  }
}
