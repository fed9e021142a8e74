import * as decoding from "lib0/decoding";
import * as Y from "yjs";

/** What one SAVED message says (lib/contracts/sync.ts). */
export interface SavedWord {
  /** Update messages of this socket that are committed. */
  count: number;
  stateVector: Map<number, number>;
}

export function readSaved(decoder: decoding.Decoder): SavedWord {
  const count = decoding.readVarUint(decoder);
  return { count, stateVector: Y.decodeStateVector(decoding.readVarUint8Array(decoder)) };
}

const SYNC = 0;
const STEP_2 = 1;
const UPDATE = 2;

/**
 * Knows whether everything in this page's document is committed by the server.
 *
 * A socket opens with nothing known. The hub asks for what it lacks, and the answer (sync step 2) carries all
 * that the page has; from then on each change is one update message. So when the hub has committed as many update
 * messages as went out on this socket, the answer among them, all that was made here is saved, deletions included;
 * and when its state vector covers the document's, so is all that came from others.
 */
export class SavedMark {
  private sent = 0;
  private answered = false;
  /** A change was made here while no socket was open to take it; only the next answer carries it. */
  private missed = false;
  private clean = false;

  constructor(private readonly doc: Y.Doc) {}

  /** True when the server has committed everything in the document. */
  get saved(): boolean {
    return this.clean;
  }

  /** A new socket: counting begins anew. What was saved stays saved. */
  socketOpened(): void {
    this.sent = 0;
    this.answered = false;
  }

  /** To be told of every message that goes out on the socket. */
  messageSent(message: Uint8Array): void {
    if (message[0] !== SYNC || (message[1] !== STEP_2 && message[1] !== UPDATE)) return;
    this.sent++;
    if (message[1] !== STEP_2) return;
    this.answered = true;
    this.missed = false;
  }

  /**
   * The document changed; whether here or from elsewhere, it may hold what is not committed yet.
   * @param from `away` from the hub; `sent` here, and on its way; `unsent` here, with no socket open
   */
  documentChanged(from: "away" | "sent" | "unsent"): void {
    this.clean = false;
    if (from === "unsent") this.missed = true;
  }

  savedArrived(word: SavedWord): void {
    if (!this.answered || this.missed || word.count < this.sent) return;
    for (const [client, clock] of Y.decodeStateVector(Y.encodeStateVector(this.doc))) {
      if ((word.stateVector.get(client) ?? 0) < clock) return;
    }
    this.clean = true;
  }
}
