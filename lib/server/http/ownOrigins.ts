import os from "node:os";
import type { Config } from "../config/config";

const ANY = new Set(["0.0.0.0", "::"]);
const LOOPBACK = ["localhost", "127.0.0.1", "[::1]"];

/** Whether only programs on this machine reach a server that listens there. */
export function isLoopback(host: string): boolean {
  return host === "localhost" || host === "::1" || /^127(\.\d+){3}$/.test(host);
}

const bracketed = (host: string) => (host.includes(":") ? `[${host}]` : host);

function hostsOf({ host, publicUrl }: Pick<Config, "host" | "publicUrl">): string[] {
  if (isLoopback(host)) return [bracketed(host), ...LOOPBACK];
  // Behind a proxy only its address counts, and the machine's own for whoever sits at it.
  if (publicUrl) return LOOPBACK;
  if (!ANY.has(host)) return [bracketed(host)];
  const addresses = Object.values(os.networkInterfaces()).flatMap((each) => each ?? []);
  const names = [os.hostname(), `${os.hostname()}.local`];
  return [...LOOPBACK, ...names, ...addresses.map((each) => bracketed(each.address))];
}

/**
 * Every origin under which browsers may know this server, the best to give out first: `LIFTBOOK_URL`, else the host
 * it listens on. Requests that change something are taken from these alone.
 */
export function ownOrigins(config: Pick<Config, "host" | "publicUrl">, port: number): string[] {
  const found = hostsOf(config).map((host) => new URL(`http://${host}:${port}`).origin);
  const all = config.publicUrl ? [new URL(config.publicUrl).origin, ...found] : found;
  return [...new Set(all)];
}
