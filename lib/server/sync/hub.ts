import type { IncomingMessage } from "node:http";
import type { Duplex } from "node:stream";
import type { Logger } from "pino";
import { WebSocketServer } from "ws";
import type * as Y from "yjs";
import type { HearingStatus } from "@/lib/contracts/books";
import type { Role } from "@/lib/contracts/roles";
import { CLOSE, MAX_SYNC_MESSAGE_BYTES, SYNC_PATH } from "@/lib/contracts/sync";
import { MACHINE } from "@/lib/document/records/Stamp";
import { webHeaders } from "../auth/session";
import type { PrismaClient } from "../db/generated/client";
import { latestHearing } from "../hearing/runStatus";
import type { Hub } from "../house";
import { COMMIT_TIMING, type CommitTiming } from "./commitQueue";
import { MemberSocket } from "./MemberSocket";
import { takesMessage } from "./messages";
import type { Person } from "./presence";
import { SongRoom } from "./SongRoom";
import { createUpdateLog, type UpdateLog } from "./updateLog";

export interface HubTiming extends CommitTiming {
  /** How long a song stays in memory after its last page left. */
  lingerMs: number;
  /** How often each socket is asked for a sign of life, and its person's right to be here is looked at again. */
  heartbeatMs: number;
  /** How long stopping waits for the database. */
  stopMs: number;
  /** Rows of log after which they are folded into the snapshot. */
  compactAfter: number;
}

const HUB_TIMING: HubTiming = {
  ...COMMIT_TIMING,
  lingerMs: 10_000,
  heartbeatMs: 15_000,
  stopMs: 10_000,
  compactAfter: 300,
};

export interface HubDeps {
  db: PrismaClient;
  log: Logger;
  session(headers: Headers): Promise<Person | null>;
  membership(songId: string, userId: string): Promise<{ role: Role } | null>;
  /** Origins of this server's own pages, as in `http://localhost:3000`. */
  allowedOrigins: readonly string[];
  updateLog?: UpdateLog;
  timing?: Partial<HubTiming>;
}

export interface SyncHub extends Hub {
  /** Takes over a WebSocket upgrade; false where the address is not the hub's. */
  handleUpgrade(req: IncomingMessage, socket: Duplex, head: Buffer): boolean;
}

/** Null where the address is not the hub's; empty where it names no song. The address may be anything at all. */
function songIdOf(url: string | undefined): string | null {
  const [path = ""] = (url ?? "").split("?", 1);
  if (!path.startsWith(`${SYNC_PATH}/`)) return null;
  try {
    return decodeURIComponent(path.slice(SYNC_PATH.length + 1));
  } catch {
    return "";
  }
}

function refuse(socket: Duplex, status: string): void {
  socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
}

/** The hub of the shared songs: one document a song in memory, members only, every change in PostgreSQL. */
export function createHub(deps: HubDeps): SyncHub {
  const { db, log } = deps;
  const timing: HubTiming = { ...HUB_TIMING, ...deps.timing };
  const updateLog = deps.updateLog ?? createUpdateLog(db);
  const rooms = new Map<string, SongRoom>();
  const closing = new Set<Promise<void>>();
  // Twice the limit, so that a message somewhat over it is answered with our own close code.
  const wss = new WebSocketServer({ noServer: true, maxPayload: 2 * MAX_SYNC_MESSAGE_BYTES });
  let stopping = false;

  function roomOf(songId: string): SongRoom {
    const open = rooms.get(songId);
    if (open) return open;
    const room = new SongRoom(songId, { updateLog, log, timing, compactAfter: timing.compactAfter });
    rooms.set(songId, room);
    room.ready.catch((err) => {
      log.error({ songId, err }, "a song could not be loaded");
      forget(room);
    });
    return room;
  }

  function forget(room: SongRoom): void {
    if (rooms.get(room.songId) === room) rooms.delete(room.songId);
    const done = room.close().finally(() => closing.delete(done));
    closing.add(done);
  }

  function linger(room: SongRoom): void {
    setTimeout(() => {
      if (stopping || rooms.get(room.songId) !== room) return;
      if (room.idle) forget(room);
      else if (room.members.length === 0) linger(room);
    }, timing.lingerMs).unref();
  }

  async function seat(songId: string, socket: MemberSocket): Promise<void> {
    const room = roomOf(songId);
    try {
      await room.ready;
      const hearing = room.hearing ?? (await latestHearing(db, songId));
      if (stopping) return socket.close(CLOSE.serverStopping);
      if (room.failing) return socket.close(CLOSE.notSaved);
      // The room may have been given up while the hearing was looked up.
      if (rooms.get(songId) !== room) return seat(songId, socket);
      room.join(socket, hearing);
      socket.onClose(() => {
        room.leave(socket);
        if (room.members.length === 0) linger(room);
      });
      socket.begin((message) => room.receive(socket, message));
    } catch (err) {
      log.warn({ songId, err }, "a page could not join a song");
      socket.close(CLOSE.notSaved);
    }
  }

  async function admit(songId: string, headers: Headers): Promise<{ person: Person; role: Role } | number> {
    const person = await deps.session(headers);
    if (!person) return CLOSE.notSignedIn;
    const member = songId === "" ? null : await deps.membership(songId, person.userId);
    return member ? { person, role: member.role } : CLOSE.notFound;
  }

  async function greet(songId: string, req: IncomingMessage, socket: Duplex, head: Buffer): Promise<void> {
    const headers = webHeaders(req.headers);
    const admitted = await admit(songId, headers).catch((err) => {
      log.error({ err }, "a page's right to a song could not be looked up");
      return CLOSE.notSaved;
    });
    if (socket.destroyed) return;
    wss.handleUpgrade(req, socket, head, (ws) => {
      if (typeof admitted !== "number") {
        void seat(songId, new MemberSocket(ws, admitted.person, admitted.role, headers));
        return;
      }
      // What it sends meanwhile may break the protocol; ws then closes by itself.
      ws.on("error", () => {});
      // Refusals are given as close codes, which the client can read; of a refused upgrade it learns nothing.
      ws.close(admitted);
    });
  }

  async function lookAgain(songId: string, socket: MemberSocket): Promise<void> {
    try {
      const admitted = await admit(songId, socket.headers);
      if (typeof admitted === "number") socket.close(admitted);
      else socket.role = admitted.role;
    } catch (err) {
      log.warn({ songId, err }, "a page's right to a song could not be looked up again");
    }
  }

  const heartbeat = setInterval(() => {
    for (const room of rooms.values()) {
      room.remind();
      for (const member of room.members) {
        if (!(member instanceof MemberSocket)) continue;
        member.heartbeat();
        void lookAgain(room.songId, member);
      }
    }
  }, timing.heartbeatMs);
  heartbeat.unref();

  return {
    handleUpgrade(req, socket, head) {
      const songId = songIdOf(req.url);
      if (songId === null) return false;
      socket.on("error", () => socket.destroy());
      if (stopping) refuse(socket, "503 Service Unavailable");
      else if (!deps.allowedOrigins.includes(req.headers.origin ?? "")) refuse(socket, "403 Forbidden");
      else void greet(songId, req, socket, head);
      return true;
    },

    announceHearing(songId: string, status: HearingStatus) {
      rooms.get(songId)?.announce(status);
    },

    announceTakes(songId, userId) {
      for (const member of rooms.get(songId)?.members ?? [])
        if (userId === undefined || member.person.userId === userId) member.send(takesMessage());
    },

    async edit<T>(songId: string, change: (doc: Y.Doc) => T): Promise<T> {
      if (stopping) throw new Error("the server is stopping");
      const room = roomOf(songId);
      try {
        return await room.edit(change, MACHINE);
      } finally {
        if (room.members.length === 0) linger(room);
      }
    },

    drop(songId, userId) {
      for (const member of rooms.get(songId)?.members ?? []) {
        if (userId === undefined) member.close(CLOSE.notFound);
        else if (member.person.userId === userId) member.close(CLOSE.leavingBook);
      }
    },

    async stop() {
      stopping = true;
      clearInterval(heartbeat);
      for (const room of rooms.values())
        for (const member of room.members) member.close(CLOSE.serverStopping);
      const timeUp = new Promise<"late">((resolve) => setTimeout(resolve, timing.stopMs, "late").unref());
      const flushed = Promise.allSettled([...rooms.values()].map((room) => room.flush()));
      const results = await Promise.race([flushed, timeUp]);
      if (results === "late" || results.some((one) => one.status === "rejected")) {
        log.error(
          "some changes could not be saved before stopping; they are kept in the pages that made them",
        );
      }
      for (const room of [...rooms.values()]) forget(room);
      await Promise.race([Promise.allSettled([...closing]), timeUp]);
      for (const ws of wss.clients) ws.terminate();
      wss.close();
    },
  };
}
