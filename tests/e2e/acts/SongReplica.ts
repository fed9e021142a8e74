import type { Page } from "@playwright/test";
import { WebSocket as NodeSocket } from "ws";
import { openSong, type SongConnection } from "@/lib/client/sync/songProvider";
import { readSong } from "@/lib/document/read/readSong";

/** What says who wrote when, and under what name a record lies; two ways to do one act differ in it. Counts and guesses are kept for good. */
const OF_THE_WRITING =
  /^(id|ids|by|.*Id|.*Ms|stamp|seen|check|covers|looks|guesses|through|listening|practice)$/;

/** The shared song as another person's page has it, beside the page that is tried. */
export class SongReplica {
  private constructor(private readonly connection: SongConnection) {}

  /** @param page signed in, on the song's page */
  static async open(page: Page): Promise<SongReplica> {
    const url = new URL(page.url());
    const cookies = await page.context().cookies();
    const headers = {
      cookie: cookies.map(({ name, value }) => `${name}=${value}`).join("; "),
      origin: url.origin,
    };
    class Socket extends NodeSocket {
      constructor(address: string | URL, protocols?: string | string[]) {
        super(address, protocols, { headers });
      }
    }
    const connection = openSong({
      songId: url.pathname.split("/").at(-1) ?? "",
      userId: "replica",
      serverUrl: `${url.origin.replace(/^http/, "ws")}/sync`,
      WebSocketPolyfill: Socket as unknown as typeof WebSocket,
    });
    await new Promise<void>((resolve) => {
      const stop = connection.subscribe(() => {
        if (!connection.loaded) return;
        stop();
        resolve();
      });
    });
    return new SongReplica(connection);
  }

  /** All of the song that the act is about, in one text: the same for two acts that do the same. */
  text(): string {
    return JSON.stringify(readSong(this.connection.doc), (key, value: unknown) =>
      OF_THE_WRITING.test(key) ? undefined : value,
    );
  }

  close(): void {
    this.connection.close();
  }
}
