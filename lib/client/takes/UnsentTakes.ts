import * as idb from "lib0/indexeddb";
import type { NewTake } from "@/lib/contracts/takeSchemas";
import type { Take } from "@/lib/contracts/takes";

/** A take that this browser has and the server may not have yet. */
export interface UnsentTake
  extends Pick<Take, "id" | "songId" | "judged" | "durationSec" | "sampleRateHz" | "channelCount"> {
  about: NewTake;
  /** A WAV, as `readWav` takes it. */
  sound: Blob;
}

/** Where takes wait for the server. */
export interface TakeStore {
  /** What waits of one person's takes of a song, the earliest first. */
  list(userId: string, songId: string): Promise<UnsentTake[]>;
  /** @throws where the browser keeps nothing, or has no room */
  put(take: UnsentTake): Promise<void>;
  remove(id: string): Promise<void>;
}

const NAME = "liftbook-takes";
const STORE = "takes";

/**
 * Takes in the browser's own store until the server has them, each person's under that person's id; signing out leaves
 * them, since nothing played is lost.
 */
export class UnsentTakes implements TakeStore {
  private opened: Promise<IDBDatabase> | null = null;

  async list(userId: string, songId: string): Promise<UnsentTake[]> {
    const all: UnsentTake[] = await idb.rtop((await this.store("readonly")).getAll());
    return all
      .filter((take) => take.about.ownerId === userId && take.songId === songId)
      .sort((a, b) => a.about.madeAtMs - b.about.madeAtMs);
  }

  async put(take: UnsentTake): Promise<void> {
    await idb.rtop((await this.store("readwrite")).put(take));
  }

  async remove(id: string): Promise<void> {
    await idb.rtop((await this.store("readwrite")).delete(id));
  }

  private async store(access: IDBTransactionMode): Promise<IDBObjectStore> {
    if (typeof indexedDB === "undefined") throw new Error("This browser keeps nothing.");
    this.opened ??= idb.openDB(NAME, (db: IDBDatabase) => db.createObjectStore(STORE, { keyPath: "id" }));
    try {
      return (await this.opened).transaction(STORE, access).objectStore(STORE);
    } catch (fault) {
      // Closed by the browser, as where the site's data was cleared: opened anew the next time.
      this.opened = null;
      throw fault;
    }
  }
}
