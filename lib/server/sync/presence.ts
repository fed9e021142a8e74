import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import {
  type Awareness,
  applyAwarenessUpdate,
  encodeAwarenessUpdate,
  removeAwarenessStates,
} from "y-protocols/awareness";

/** Largest presence one person may show, in characters of JSON. */
const MAX_STATE_CHARS = 4_096;

/** Who is at the other end of a socket, as the session says. */
export interface Person {
  userId: string;
  name: string;
}

interface Entry {
  id: number;
  clock: number;
  stateJson: string;
}

function readEntries(update: Uint8Array): Entry[] {
  const decoder = decoding.createDecoder(update);
  const entries: Entry[] = [];
  const count = decoding.readVarUint(decoder);
  for (let i = 0; i < count; i++) {
    entries.push({
      id: decoding.readVarUint(decoder),
      clock: decoding.readVarUint(decoder),
      stateJson: decoding.readVarString(decoder),
    });
  }
  return entries;
}

/** The state with the session's own person in it, or null for a state that claims to be somebody else. */
function truthful(state: object, person: Person): object | null {
  if ("user" in state && state.user !== null && state.user !== undefined) {
    const claimed = state.user;
    if (typeof claimed !== "object" || !("id" in claimed) || claimed.id !== person.userId) return null;
  }
  return { ...state, user: { id: person.userId, name: person.name } };
}

/**
 * Who is on a song's page, with lies kept out. Each socket speaks for one awareness id, the first it names; the
 * states of others that clients echo (y-websocket's do) are passed over. An id that a living socket holds goes
 * over to another socket only where the same person comes back.
 */
export class Presence<Socket extends object> {
  private readonly idOf = new Map<Socket, number>();
  private readonly holderOf = new Map<number, { socket: Socket; userId: string }>();

  constructor(private readonly awareness: Awareness) {
    awareness.setLocalState(null);
  }

  /**
   * Takes what a socket says of itself.
   * @throws on a malformed update
   */
  receive(socket: Socket, person: Person, update: Uint8Array): void {
    for (const entry of readEntries(update)) {
      const state: unknown = JSON.parse(entry.stateJson);
      if (!this.speaksFor(socket, person, entry.id, state !== null)) continue;
      let shown: object | null = null;
      if (state !== null) {
        if (typeof state !== "object" || entry.stateJson.length > MAX_STATE_CHARS) continue;
        shown = truthful(state, person);
        if (!shown) continue;
      }
      const encoder = encoding.createEncoder();
      encoding.writeVarUint(encoder, 1);
      encoding.writeVarUint(encoder, entry.id);
      encoding.writeVarUint(encoder, entry.clock);
      encoding.writeVarString(encoder, JSON.stringify(shown));
      applyAwarenessUpdate(this.awareness, encoding.toUint8Array(encoder), socket);
    }
  }

  private speaksFor(socket: Socket, person: Person, id: number, present: boolean): boolean {
    const own = this.idOf.get(socket);
    if (own !== undefined) return own === id && this.holderOf.get(id)?.socket === socket;
    if (!present) return false;
    const holder = this.holderOf.get(id);
    if (holder && holder.userId !== person.userId) return false;
    this.idOf.set(socket, id);
    this.holderOf.set(id, { socket, userId: person.userId });
    return true;
  }

  leave(socket: Socket): void {
    const id = this.idOf.get(socket);
    this.idOf.delete(socket);
    if (id === undefined || this.holderOf.get(id)?.socket !== socket) return;
    this.holderOf.delete(id);
    removeAwarenessStates(this.awareness, [id], socket);
    // Forget the clock too, so that the same page is shown at once when it comes back.
    this.awareness.meta.delete(id);
  }

  /** Everyone's state, to greet a newcomer with; null when nobody is here. */
  everyone(): Uint8Array | null {
    const ids = [...this.awareness.getStates().keys()];
    return ids.length > 0 ? encodeAwarenessUpdate(this.awareness, ids) : null;
  }

  some(ids: number[]): Uint8Array {
    return encodeAwarenessUpdate(this.awareness, ids);
  }
}
