import * as decoding from "lib0/decoding";

/** What one SAVED message says (lib/contracts/sync.ts): how many messages with an update, each way, are committed. */
export interface SavedWord {
  /** Of those that this page sent on this socket. */
  ours: number;
  /** Of those that it was sent on this socket. */
  theirs: number;
}

export function readSaved(decoder: decoding.Decoder): SavedWord {
  return { ours: decoding.readVarUint(decoder), theirs: decoding.readVarUint(decoder) };
}

const SYNC = 0;
const STEP_2 = 1;
const UPDATE = 2;

/**
 * Knows whether everything in this page's document is committed by the server.
 *
 * A socket opens with nothing known. The hub asks for what it lacks, and the answer (sync step 2) carries all that
 * the page has; from then on each change is one update message. So when the hub has committed as many as went out
 * on this socket, the answer among them, and as many as came in, all that the page shows is saved, deletions
 * included.
 */
export class SavedMark {
  private sent = 0;
  private received = 0;
  private answered = false;
  /** A change was made here while no socket was open to take it; only the next answer carries it. */
  private missed = false;
  private clean = false;

  /** True when the server has committed everything in the document. */
  get saved(): boolean {
    return this.clean;
  }

  /** A new socket: counting begins anew. What was saved stays saved. */
  socketOpened(): void {
    this.sent = 0;
    this.received = 0;
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

  /** To be told of every sync message that comes in, before it is applied. */
  syncMessageArrived(decoder: decoding.Decoder): void {
    const step = decoding.peekVarUint(decoder);
    if (step === STEP_2 || step === UPDATE) this.received++;
  }

  /**
   * The document changed; whether here or from elsewhere, it may hold what is not committed yet.
   * @param from `away` from the hub; `sent` here, and on its way; `unsent` here, with no socket open
   */
  documentChanged(from: "away" | "sent" | "unsent"): void {
    this.clean = false;
    if (from === "unsent") this.missed = true;
  }

  savedArrived({ ours, theirs }: SavedWord): void {
    if (this.answered && !this.missed && ours >= this.sent && theirs >= this.received) this.clean = true;
  }
}
