import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import type { Duplex } from "node:stream";
import pino from "pino";
import { WebSocket as NodeSocket } from "ws";
import * as Y from "yjs";
import { openSong, type SongConnection } from "@/lib/client/sync/songProvider";
import type { Role } from "@/lib/contracts/roles";
import type { PrismaClient } from "@/lib/server/db/generated/client";
import { createHub, type HubTiming, type SyncHub } from "@/lib/server/sync/hub";
import { SongGone, type UpdateLog } from "@/lib/server/sync/updateLog";

export const OWN_ORIGIN = "http://liftbook.test";

export interface Wire {
  hub: SyncHub;
  url: string;
  roles: Map<string, Role>;
  page(userId: string, songId?: string): SongConnection;
  raw(userId: string, options?: { songId?: string; origin?: string }): NodeSocket;
  /** Cuts a person's lines, as a network does: without a close frame. */
  cut(userId: string): void;
  close(): Promise<void>;
}

/** A log in memory whose answers a test can hold back or refuse. */
export class HeldLog implements UpdateLog {
  readonly rows: Uint8Array[] = [];
  loads = 0;
  gate: Promise<void> = Promise.resolve();
  loadGate: Promise<void> = Promise.resolve();
  refusing = false;
  gone = false;

  /** Holds back every answer until the returned function is called. */
  hold(): () => void {
    let open = () => {};
    this.gate = new Promise((resolve) => {
      open = resolve;
    });
    return open;
  }

  async load() {
    this.loads++;
    await this.loadGate;
    return { updates: [...this.rows], logRows: this.rows.length };
  }

  async append(_songId: string, update: Uint8Array) {
    await this.gate;
    if (this.gone) throw new SongGone();
    if (this.refusing) throw new Error("the database refuses");
    this.rows.push(update);
  }

  async compact() {}

  /** The document that a server would load now. */
  read(): Y.Doc {
    const doc = new Y.Doc();
    for (const row of this.rows) Y.applyUpdate(doc, row);
    return doc;
  }
}

/** The hub at a port of its own, where the session is a header and membership a map. */
export async function openWire(options: {
  updateLog?: UpdateLog;
  db?: PrismaClient;
  timing?: Partial<HubTiming>;
}): Promise<Wire> {
  const roles = new Map<string, Role>();
  const quiet = { hearingRun: { findFirst: async () => null } } as unknown as PrismaClient;
  const hub = createHub({
    db: options.db ?? quiet,
    log: pino({ level: "silent" }),
    session: async (headers) => {
      const userId = headers.get("x-user");
      return userId ? { userId, name: `Name of ${userId}` } : null;
    },
    membership: async (_songId, userId) => {
      const role = roles.get(userId);
      return role ? { role } : null;
    },
    allowedOrigins: [OWN_ORIGIN],
    updateLog: options.updateLog,
    timing: options.timing,
  });
  const server = createServer();
  const lines: { userId: unknown; socket: Duplex }[] = [];
  server.on("upgrade", (req, socket, head) => {
    lines.push({ userId: req.headers["x-user"], socket });
    if (!hub.handleUpgrade(req, socket, head)) socket.destroy();
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const url = `ws://127.0.0.1:${(server.address() as AddressInfo).port}/sync`;
  const pages: SongConnection[] = [];
  return {
    hub,
    url,
    roles,
    page(userId, songId = "song") {
      class AsUser extends NodeSocket {
        constructor(address: string, protocols?: string[]) {
          super(address, protocols, { headers: { "x-user": userId, origin: OWN_ORIGIN } });
        }
      }
      const WebSocketPolyfill = AsUser as unknown as typeof WebSocket;
      const page = openSong({ songId, userId, serverUrl: url, WebSocketPolyfill });
      pages.push(page);
      return page;
    },
    raw: (userId, { songId = "song", origin = OWN_ORIGIN } = {}) =>
      new NodeSocket(`${url}/${songId}`, { headers: { "x-user": userId, origin } }),
    cut(userId) {
      for (const line of lines) if (line.userId === userId) line.socket.destroy();
    },
    async close() {
      for (const page of pages) page.close();
      await hub.stop();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

/** Waits until `ready` holds. @throws with `what` after some seconds */
export async function until(what: string, ready: () => boolean, limitMs = 8_000): Promise<void> {
  const end = Date.now() + limitMs;
  while (!ready()) {
    if (Date.now() > end) throw new Error(`waited in vain until ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}

/** Lets everything that is under way arrive, where a test shows that something does not happen. */
export const settle = (ms = 120) => new Promise((resolve) => setTimeout(resolve, ms));

export const words = (doc: Y.Doc): Y.Map<string> => doc.getMap<string>("words");
