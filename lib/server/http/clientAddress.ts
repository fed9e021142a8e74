import type { IncomingMessage } from "node:http";
import { BlockList, isIP } from "node:net";

/** Carries the caller's address from the server to the routes; whatever a client sends under this name is replaced. */
export const CLIENT_ADDRESS_HEADER = "x-liftbook-client";

const NEAR = new BlockList();
for (const [net, prefix] of [
  ["127.0.0.0", 8],
  ["10.0.0.0", 8],
  ["172.16.0.0", 12],
  ["192.168.0.0", 16],
] as const)
  NEAR.addSubnet(net, prefix, "ipv4");
NEAR.addAddress("::1", "ipv6");
NEAR.addSubnet("fc00::", 7, "ipv6");

const plain = (address: string) => address.replace(/^::ffff:(?=\d+\.)/, "");

function isNear(address: string): boolean {
  const kind = isIP(address);
  return kind !== 0 && NEAR.check(address, kind === 6 ? "ipv6" : "ipv4");
}

/**
 * The address that a request came from. Where a proxy is told of (`LIFTBOOK_URL`) and the request comes from a near
 * address, the last entry of X-Forwarded-For counts: the one that the proxy itself wrote.
 */
export function clientAddress(req: IncomingMessage, behindProxy: boolean): string {
  const peer = plain(req.socket.remoteAddress ?? "");
  if (!behindProxy || !isNear(peer)) return peer;
  const forwarded = String(req.headers["x-forwarded-for"] ?? "");
  const last = plain(forwarded.split(",").at(-1)?.trim() ?? "");
  return isIP(last) === 0 ? peer : last;
}
