import { randomBytes } from "node:crypto";
import type { IncomingMessage } from "node:http";
import { type RequestListener, Server } from "node:http";
import type { Duplex } from "node:stream";
import type { Config } from "@/lib/server/config/config";
import { CLIENT_ADDRESS_HEADER, clientAddress } from "@/lib/server/http/clientAddress";
import { recordAskedFor, sendRecord } from "@/lib/server/http/recordRoute";
import { securityHeaders } from "@/lib/server/http/securityHeaders";

export interface Pages {
  answer: RequestListener;
  /** The development server's own WebSocket; in production nothing takes it. */
  upgrade(req: IncomingMessage, socket: Duplex, head: Buffer): void;
  close(): Promise<void>;
}

/** Opens the pages and routes (Next), with the headers that every answer carries. */
export async function openPages(
  folder: string,
  config: Pick<Config, "publicUrl" | "host">,
  port: number,
  development: boolean,
): Promise<Pages> {
  const { default: next } = await import("next");
  // It never listens: upgrades are given out below, and Next gets those of its own from here.
  const upgrades = new Server();
  const app = next({
    dev: development,
    dir: folder,
    hostname: config.host,
    port,
    httpServer: upgrades,
  });
  await app.prepare();
  const handle = app.getRequestHandler();
  const secure = config.publicUrl?.startsWith("https:") ?? false;
  return {
    answer(req, res) {
      const nonce = randomBytes(16).toString("base64");
      const headers = securityHeaders({ nonce, secure, development });
      for (const [name, value] of Object.entries(headers)) res.setHeader(name, value);
      // Next reads the nonce for its own inline scripts from the request.
      req.headers["content-security-policy"] = headers["Content-Security-Policy"];
      req.headers[CLIENT_ADDRESS_HEADER] = clientAddress(req, config.publicUrl !== null);
      const songId = recordAskedFor(req);
      const answered = songId === null ? handle(req, res) : sendRecord(songId, req, res);
      // Faults of routes are answered in words; this is for what lies around them.
      answered.catch((fault: unknown) => {
        console.error(fault);
        res.destroy();
      });
    },
    upgrade(req, socket, head) {
      // Node listens to it no longer: a line that breaks now would end the process.
      socket.on("error", () => socket.destroy());
      if (development) upgrades.emit("upgrade", req, socket, head);
      else socket.end("HTTP/1.1 404 Not Found\r\nConnection: close\r\nContent-Length: 0\r\n\r\n");
    },
    close: () => app.close(),
  };
}
