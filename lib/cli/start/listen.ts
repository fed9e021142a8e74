import { createServer, type RequestListener, type Server } from "node:http";
import type { AddressInfo, Socket } from "node:net";
import type { Config } from "@/lib/server/config/config";

/** The server cannot listen where it was told to; the message names the setting to change. */
export class ListenError extends Error {
  override readonly name = "ListenError";
}

/** A server that listens and holds callers off until it is told how to answer. */
export interface Listening {
  server: Server;
  port: number;
  answerWith(listener: RequestListener): void;
  /** Takes no more requests, waits a while for those under way, and ends what is left. */
  close(): Promise<void>;
}

// A recording of the largest size may take this long over a slow line.
const UPLOAD_MS = 60 * 60 * 1000;
const GRACE_MS = 3000;

function wordsOf(fault: NodeJS.ErrnoException, { host, port }: Pick<Config, "host" | "port">): string {
  if (fault.code === "EADDRINUSE")
    return `Port ${port} on ${host} is taken by another program. Set PORT to a free one, as in "PORT=${port + 1} npm start".`;
  if (fault.code === "EACCES")
    return `This user may not listen on port ${port}. Set PORT to one above 1023, as in "PORT=4280 npm start".`;
  if (fault.code === "EADDRNOTAVAIL" || fault.code === "ENOTFOUND")
    return `This machine has no interface ${host}. Set HOST to one of its addresses, or to 0.0.0.0 for all.`;
  return `The server could not listen on ${host}, port ${port} (HOST, PORT): ${fault.message}`;
}

/** @throws {ListenError} */
export async function listen(config: Pick<Config, "host" | "port">): Promise<Listening> {
  let answer: RequestListener = (_req, res) => {
    res.writeHead(503, { "content-type": "text/plain; charset=utf-8", "retry-after": "3" });
    res.end("Liftbook is starting. Try again in a moment.\n");
  };
  const server = createServer((req, res) => answer(req, res));
  server.requestTimeout = UPLOAD_MS;
  // Sockets that became WebSockets are no longer the server's own, but must not outlive it.
  const sockets = new Set<Socket>();
  let closed: Promise<void> | undefined;
  server.on("connection", (socket) => {
    sockets.add(socket);
    socket.once("close", () => sockets.delete(socket));
  });
  await new Promise<void>((resolve, reject) => {
    server.once("error", (fault) => reject(new ListenError(wordsOf(fault, config), { cause: fault })));
    server.listen(config.port, config.host, resolve);
  });
  return {
    server,
    port: (server.address() as AddressInfo).port,
    answerWith(listener) {
      answer = listener;
    },
    close() {
      closed ??= new Promise((resolve) => {
        const timer = setTimeout(() => {
          for (const socket of sockets) socket.destroy();
        }, GRACE_MS);
        server.close(() => {
          clearTimeout(timer);
          resolve();
        });
        server.closeIdleConnections();
      });
      return closed;
    },
  };
}
