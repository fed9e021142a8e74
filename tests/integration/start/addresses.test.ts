import type { IncomingMessage } from "node:http";
import { describe, expect, test } from "vitest";
import { clientAddress } from "@/lib/server/http/clientAddress";
import { isLoopback, ownOrigins } from "@/lib/server/http/ownOrigins";
import { contentSecurityPolicy, securityHeaders } from "@/lib/server/http/securityHeaders";

const from = (remoteAddress: string, forwarded?: string) =>
  ({
    socket: { remoteAddress },
    headers: forwarded ? { "x-forwarded-for": forwarded } : {},
  }) as unknown as IncomingMessage;

describe("the caller's address", () => {
  test("is the socket's, whatever the caller claims, where there is no proxy", () => {
    expect(clientAddress(from("203.0.113.9", "198.51.100.1"), false)).toBe("203.0.113.9");
    expect(clientAddress(from("::ffff:203.0.113.9"), false)).toBe("203.0.113.9");
  });

  test("is what a near proxy wrote last, never what the caller wrote before it", () => {
    expect(clientAddress(from("127.0.0.1", "1.1.1.1, 198.51.100.7"), true)).toBe("198.51.100.7");
    expect(clientAddress(from("10.3.2.1", "2001:db8::5"), true)).toBe("2001:db8::5");
    expect(clientAddress(from("::1", "not an address"), true)).toBe("::1");
    expect(clientAddress(from("172.18.0.2"), true)).toBe("172.18.0.2");
  });

  test("is the socket's where a far caller plays the proxy", () => {
    expect(clientAddress(from("203.0.113.9", "127.0.0.1"), true)).toBe("203.0.113.9");
  });
});

describe("the server's own origins", () => {
  test("on loopback: every name of it", () => {
    expect(ownOrigins({ host: "127.0.0.1", publicUrl: null }, 4280)).toEqual([
      "http://127.0.0.1:4280",
      "http://localhost:4280",
      "http://[::1]:4280",
    ]);
    expect(["localhost", "127.0.0.1", "127.1.2.3", "::1"].every(isLoopback)).toBe(true);
    expect(["0.0.0.0", "::", "192.168.0.2", "127.evil.example", "localhost.example"].some(isLoopback)).toBe(
      false,
    );
  });

  test("behind a proxy: the address people type first, without its path", () => {
    const origins = ownOrigins({ host: "0.0.0.0", publicUrl: "https://lift.example.org/music" }, 4280);
    expect(origins[0]).toBe("https://lift.example.org");
    expect(origins.slice(1).every((origin) => /localhost|127\.0\.0\.1|\[::1\]/.test(origin))).toBe(true);
  });

  test("on all interfaces: a name for each, none of them another site's", () => {
    const origins = ownOrigins({ host: "0.0.0.0", publicUrl: null }, 80);
    expect(origins).toContain("http://localhost");
    expect(origins.every((origin) => URL.canParse(origin))).toBe(true);
  });
});

describe("the headers of every answer", () => {
  const context = { nonce: "bm9uY2U=", secure: false, development: false };

  test("let no other site frame a page, guess a type or learn an address", () => {
    const headers = securityHeaders(context);
    expect(headers["Content-Security-Policy"]).toContain("frame-ancestors 'none'");
    expect(headers["X-Content-Type-Options"]).toBe("nosniff");
    expect(headers["Referrer-Policy"]).toBe("same-origin");
    expect(headers["Strict-Transport-Security"]).toBeUndefined();
    expect(securityHeaders({ ...context, secure: true })["Strict-Transport-Security"]).toMatch(/max-age/);
  });

  test("run the page's own scripts and WebAssembly, but no script written into a page and no text as code", () => {
    const scripts = contentSecurityPolicy(context)
      .split("; ")
      .find((each) => each.startsWith("script-src"));
    expect(scripts?.split(" ").slice(1).sort()).toEqual([
      "'nonce-bm9uY2U='",
      "'self'",
      "'wasm-unsafe-eval'",
      "blob:",
    ]);
  });
});
