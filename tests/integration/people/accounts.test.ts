import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { toNodeHandler } from "better-auth/node";
import { pino } from "pino";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Auth, createAuth } from "@/lib/server/auth/auth";
import { readSession } from "@/lib/server/auth/session";
import { CLIENT_ADDRESS_HEADER } from "@/lib/server/http/clientAddress";
import { openTestHouse, type TestHouse } from "../testHouse";
import { cookieOf, PASSWORD } from "./houseForRoutes";

let house: TestHouse;
let server: Server;
let auth: Auth;
let url: string;
/** Each test comes from an address of its own, so that no limit on tries of one meets another. */
let caller = "10.0.0.1";

beforeAll(async () => {
  house = await openTestHouse();
  server = createServer((req, res) => {
    req.headers[CLIENT_ADDRESS_HEADER] = caller;
    void toNodeHandler(auth)(req, res);
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  auth = open({ publicUrl: null, signUp: "open" });
});
afterAll(async () => {
  await new Promise((resolve) => server.close(resolve));
  await house.close();
});

function open(config: { publicUrl: string | null; signUp: "open" | "closed" }): Auth {
  const log = pino({ level: "silent" });
  const origins = config.publicUrl ? [config.publicUrl] : [url];
  return createAuth({ config, db: house.db, log, secret: "a secret that only this test knows", origins });
}

const post = (path: string, body: unknown, headers: Record<string, string> = {}) =>
  fetch(`${url}/api/auth${path}`, {
    method: "POST",
    headers: { "content-type": "application/json", origin: url, ...headers },
    body: JSON.stringify(body),
  });

const whoIs = (cookie: string) => readSession(auth, new Headers({ cookie }));

describe("accounts, by HTTP", () => {
  test("sign up, out and in again", async () => {
    caller = "10.0.1.1";
    const person = { name: "Berta", email: "berta@example.org", password: PASSWORD };
    const up = await post("/sign-up/email", person);
    expect(up.status).toBe(200);
    const cookie = cookieOf(up);
    expect(await whoIs(cookie)).toMatchObject({ name: "Berta", email: "berta@example.org" });

    expect((await post("/sign-out", {}, { cookie })).status).toBe(200);
    // The session itself is gone, not only the browser's cookie.
    expect(await whoIs(cookie)).toBeNull();

    const back = await post("/sign-in/email", { email: person.email, password: PASSWORD });
    expect(back.status).toBe(200);
    expect(await whoIs(cookieOf(back))).toMatchObject({ name: "Berta" });
  });

  test("keep the session where no script and no other site can use it", async () => {
    caller = "10.0.1.2";
    const up = await post("/sign-up/email", { name: "C", email: "c@example.org", password: PASSWORD });
    const [cookie] = up.headers.getSetCookie();
    expect(cookie).toMatch(/; HttpOnly/);
    expect(cookie).toMatch(/; SameSite=Lax/);
    expect(cookie).not.toMatch(/; Secure/);
  });

  test("send the cookie by https only where the server is reached by https", async () => {
    caller = "10.0.1.3";
    const plain = auth;
    auth = open({ publicUrl: "https://lift.example.org", signUp: "open" });
    const headers = { origin: "https://lift.example.org" };
    const up = await post(
      "/sign-up/email",
      { name: "D", email: "d@example.org", password: PASSWORD },
      headers,
    );
    auth = plain;
    expect(up.headers.getSetCookie()[0]).toMatch(/^__Secure-.*; Secure/);
  });

  test("keep no password in the open", async () => {
    const accounts = await house.db.account.findMany();
    expect(accounts.length).toBeGreaterThan(0);
    expect(JSON.stringify(accounts)).not.toContain(PASSWORD);
  });

  test("refuse a wrong password and an unknown address with the same words", async () => {
    caller = "10.0.1.4";
    const wrong = await post("/sign-in/email", { email: "berta@example.org", password: "not this one" });
    const unknown = await post("/sign-in/email", { email: "nobody@example.org", password: "not this one" });
    expect([wrong.status, unknown.status]).toEqual([401, 401]);
    expect(await wrong.json()).toEqual(await unknown.json());
  });

  test("refuse a short password and a second account of one address", async () => {
    caller = "10.0.1.5";
    const short = await post("/sign-up/email", { name: "E", email: "e@example.org", password: "123456789" });
    expect(short.status).toBe(400);
    expect(await short.json()).toMatchObject({ code: "PASSWORD_TOO_SHORT" });
    const twice = await post("/sign-up/email", { name: "B", email: "berta@example.org", password: PASSWORD });
    expect(twice.status).toBe(422);
  });

  test("take a name that people can read, cut free of blanks, and no other", async () => {
    caller = "10.0.1.10";
    const named = (name: string, email: string) =>
      post("/sign-up/email", { name, email, password: PASSWORD });
    for (const name of ["", "   ", "x".repeat(81), "A\0", "A\nB"]) {
      const refused = await named(name, "name@example.org");
      expect([name, refused.status]).toEqual([name, 400]);
    }
    const up = await named("  Gerd Ö.  ", "name@example.org");
    expect(await up.json()).toMatchObject({ user: { name: "Gerd Ö." } });
    const change = (name: string) => post("/update-user", { name }, { cookie: cookieOf(up) });
    expect((await change("x".repeat(81))).status).toBe(400);
    expect((await change("Gerd")).status).toBe(200);
  });

  test("are guessed at thirty times a minute at most, and nobody else waits for that", async () => {
    caller = "10.0.1.6";
    const guess = () => post("/sign-in/email", { email: "nobody@example.org", password: "not this one" });
    const answers: number[] = [];
    for (let i = 0; i < 31; i++) answers.push((await guess()).status);
    expect(answers.slice(0, 30).every((status) => status === 401)).toBe(true);
    expect(answers[30]).toBe(429);
    caller = "10.0.1.7";
    expect((await guess()).status).toBe(401);
  });

  test("are made by nobody where sign-up is closed, while those there still sign in", async () => {
    caller = "10.0.1.8";
    const plain = auth;
    auth = open({ publicUrl: null, signUp: "closed" });
    const up = await post("/sign-up/email", { name: "F", email: "f@example.org", password: PASSWORD });
    const back = await post("/sign-in/email", { email: "berta@example.org", password: PASSWORD });
    auth = plain;
    expect(up.status).toBe(400);
    expect(back.status).toBe(200);
    expect(await house.db.user.count({ where: { email: "f@example.org" } })).toBe(0);
  });

  test("a forged or altered cookie opens nothing", async () => {
    caller = "10.0.1.9";
    const back = await post("/sign-in/email", { email: "berta@example.org", password: PASSWORD });
    const cookie = cookieOf(back);
    const at = cookie.indexOf("=") + 3;
    const altered = cookie.slice(0, at) + (cookie[at] === "a" ? "b" : "a") + cookie.slice(at + 1);
    expect(await whoIs(cookie)).not.toBeNull();
    expect(await whoIs(altered)).toBeNull();
    expect(await whoIs("")).toBeNull();
  });
});
