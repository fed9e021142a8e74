import { once } from "node:events";
import { connect } from "node:net";
import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { afterEach, expect, test } from "vitest";
import type { WebSocket } from "ws";
import { Awareness, encodeAwarenessUpdate } from "y-protocols/awareness";
import * as Y from "yjs";
import { MAX_SYNC_MESSAGE_BYTES, MESSAGE_SAVED } from "@/lib/contracts/sync";
import { HeldLog, OWN_ORIGIN, openWire, settle, until, type Wire, words } from "./hubHarness";

let wire: Wire | null = null;
afterEach(async () => {
  await wire?.close();
  wire = null;
});

async function open(log = new HeldLog(), timing = {}): Promise<Wire> {
  wire = await openWire({ updateLog: log, timing });
  wire.roles.set("ann", "teacher").set("ben", "student").set("lou", "listener");
  return wire;
}

const closeCode = async (socket: WebSocket): Promise<number> => {
  socket.on("error", () => {});
  const [code] = (await once(socket, "close")) as [number];
  return code;
};

function frame(type: number, write: (encoder: encoding.Encoder) => void): Uint8Array {
  const encoder = encoding.createEncoder();
  encoding.writeVarUint(encoder, type);
  write(encoder);
  return encoding.toUint8Array(encoder);
}

const updateFrame = (update: Uint8Array) =>
  frame(0, (encoder) => {
    encoding.writeVarUint(encoder, 2);
    encoding.writeVarUint8Array(encoder, update);
  });

/** Counts told by SAVED on a socket, as they come. */
function savedCounts(socket: WebSocket): number[] {
  const counts: number[] = [];
  socket.on("message", (data: Buffer) => {
    const decoder = decoding.createDecoder(data);
    if (decoding.readVarUint(decoder) === MESSAGE_SAVED) counts.push(decoding.readVarUint(decoder));
  });
  return counts;
}

test("whoever is no member is refused with 4404, whoever is not signed in with 4401", async () => {
  const { page, raw } = await open();
  expect(await closeCode(raw("eve"))).toBe(4404);
  expect(await closeCode(raw(""))).toBe(4401);
  const outsider = page("eve");
  await until("the page is refused", () => outsider.status === "refused");
  expect(outsider.refusal).toBe(4404);
});

test("a page of another site is refused before any session is looked at", async () => {
  const { raw } = await open();
  const socket = raw("ann", { origin: "http://elsewhere.test" });
  const status = await new Promise((resolve) => {
    socket.on("unexpected-response", (_req, res) => resolve(res.statusCode));
    socket.on("error", () => {});
  });
  expect(status).toBe(403);
});

/** Sends an upgrade as text, with whatever bytes behind it, and gives the first line of the answer. */
async function upgradeByHand(url: string, address: string, after: number[] = []): Promise<string> {
  const { hostname, port } = new URL(url);
  const socket = connect(Number(port), hostname);
  socket.on("error", () => {});
  const lines = [
    `GET ${address} HTTP/1.1`,
    `Host: ${hostname}`,
    "Connection: Upgrade",
    "Upgrade: websocket",
    "Sec-WebSocket-Version: 13",
    "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==",
    `Origin: ${OWN_ORIGIN}`,
  ];
  socket.write(Buffer.concat([Buffer.from(`${lines.join("\r\n")}\r\n\r\n`), Buffer.from(after)]));
  let answer = "";
  socket.on("data", (chunk) => {
    answer += chunk.toString("latin1");
  });
  await once(socket, "close");
  return answer.split("\r\n")[0] ?? "";
}

// A fault thrown where nobody catches it would end the server; the runner counts it as a failure.
test("an address that is none, or names no song, ends nothing but its own line", async () => {
  const { url } = await open();
  for (const address of ["//", "http://[", "/", "*"]) expect(await upgradeByHand(url, address)).toBe("");
  const [closeFrame, unmasked] = [0x88, 0x00];
  for (const address of ["/sync/", "/sync/%zz", "/sync//"])
    expect(await upgradeByHand(url, address, [closeFrame, unmasked])).toMatch(/ 101 /);
});

test("whoever is refused may break the protocol, and ends nothing but their own line", async () => {
  const { url } = await open();
  // RFC 6455, section 5.2: opcode 0xB is reserved.
  expect(await upgradeByHand(url, "/sync/song", [0x8b, 0x80, 0, 0, 0, 0])).toMatch(/ 101 /);
  await settle();
});

test("a listener's edits are dropped and never called saved; what others write reaches them saved", async () => {
  const log = new HeldLog();
  const { page } = await open(log);
  const [ann, lou] = [page("ann"), page("lou")];
  await until("both are connected and saved", () => ann.saved && lou.saved);
  words(ann.doc).set("x", "1");
  words(ann.doc).delete("x");
  words(ann.doc).set("y", "2");
  await until("the listener has it", () => words(lou.doc).get("y") === "2" && lou.saved);
  words(lou.doc).set("z", "no");
  await settle();
  expect(words(ann.doc).has("z")).toBe(false);
  expect(words(log.read()).has("z")).toBe(false);
  expect(lou.saved).toBe(false);
  words(ann.doc).set("more", "3");
  await until("the listener sees more", () => words(lou.doc).has("more"));
  await settle();
  expect(lou.saved).toBe(false);
});

test("a listener who comes back with a song that has deletions is saved", async () => {
  const { page } = await open();
  const ann = page("ann");
  await until("connected", () => ann.saved);
  words(ann.doc).set("x", "1");
  words(ann.doc).delete("x");
  const lou = page("lou");
  await until("saved", () => lou.saved);
  wire?.cut("lou");
  await until("away", () => lou.status === "offline");
  words(ann.doc).set("y", "1");
  await until("back and saved", () => lou.status === "connected" && lou.saved && words(lou.doc).has("y"));
});

test("a state that claims to be somebody else is dropped; an honest one is filled in from the session", async () => {
  const { page, raw } = await open();
  const ann = page("ann");
  await until("connected", () => ann.status === "connected");
  const shownTo = () => [...ann.awareness.getStates().values()].map((state) => state.user);

  const liar = raw("ben");
  await once(liar, "open");
  const awareness = new Awareness(new Y.Doc());
  const say = (socket: WebSocket, state: Record<string, unknown>) => {
    awareness.setLocalState(state);
    const update = encodeAwarenessUpdate(awareness, [awareness.clientID]);
    socket.send(frame(1, (encoder) => encoding.writeVarUint8Array(encoder, update)));
  };
  say(liar, { user: { id: "ann", name: "Ann" } });
  await settle();
  expect(shownTo()).toHaveLength(1);
  say(liar, { user: { id: "ben", name: "The Boss" }, playing: true });
  await until("the honest state is shown", () => shownTo().length === 2);
  expect(shownTo()).toContainEqual({ id: "ben", name: "Name of ben" });

  // Another's awareness id cannot be taken, nor a second one be held.
  const thief = raw("lou");
  await once(thief, "open");
  say(thief, { user: { id: "lou", name: "Lou" } });
  await settle();
  expect(shownTo()).not.toContainEqual({ id: "lou", name: "Name of lou" });

  liar.close();
  await until("whoever leaves is gone", () => shownTo().length === 1);
  thief.close();
  awareness.destroy();
});

test("a page is shown again at once when its line comes back", async () => {
  const { page, cut } = await open();
  const [ann, ben] = [page("ann"), page("ben")];
  await until(
    "both are shown",
    () => ann.awareness.getStates().size === 2 && ben.awareness.getStates().size === 2,
  );
  cut("ben");
  await until("ben is gone", () => ann.awareness.getStates().size === 1);
  await until("ben is back", () => ann.awareness.getStates().size === 2, 5_000);
});

test("bad messages close with 4422, too big ones with 4413, and hurt nobody else", async () => {
  const { page, raw } = await open();
  const ann = page("ann");
  await until("connected", () => ann.saved);
  for (const bad of [
    Uint8Array.of(77),
    Uint8Array.of(0, 9, 0),
    updateFrame(Uint8Array.of(5, 5, 5, 5)),
    Uint8Array.of(),
  ]) {
    const socket = raw("ben");
    await once(socket, "message");
    socket.send(bad);
    expect(await closeCode(socket)).toBe(4422);
  }
  const text = raw("ben");
  await once(text, "message");
  text.send("words");
  expect(await closeCode(text)).toBe(4422);
  const big = raw("ben");
  await once(big, "message");
  big.send(new Uint8Array(MAX_SYNC_MESSAGE_BYTES + 1));
  expect(await closeCode(big)).toBe(4413);
  words(ann.doc).set("x", "1");
  await until("others go on", () => ann.saved);
});

test("an update that builds on one which has not come is not counted until that has come", async () => {
  const log = new HeldLog();
  const { raw } = await open(log);
  const source = new Y.Doc();
  const updates: Uint8Array[] = [];
  source.on("update", (update: Uint8Array) => updates.push(update));
  words(source).set("first", "1");
  words(source).set("second", "2");
  const [first, second] = updates;
  if (!first || !second) throw new Error("two updates were made");
  const socket = raw("ben");
  const counts = savedCounts(socket);
  await once(socket, "message");
  socket.send(updateFrame(second));
  await settle();
  expect(Math.max(0, ...counts)).toBe(0);
  socket.send(updateFrame(first));
  await until("both are counted", () => counts.includes(2));
  expect(words(log.read()).size).toBe(2);
  socket.close();
});

test("who leaves the book is sent away with 4403, and a right that ends is noticed at the next heartbeat", async () => {
  const { hub, page, roles } = await open(new HeldLog(), { heartbeatMs: 60 });
  const [ann, ben] = [page("ann"), page("ben")];
  await until("connected", () => ann.saved && ben.saved);
  hub.drop("song", "ann");
  await until("ann is refused", () => ann.status === "refused");
  expect(ann.refusal).toBe(4403);
  expect(ben.status).toBe("connected");
  roles.set("ben", "listener");
  await settle(200);
  words(ben.doc).set("x", "1");
  await settle();
  expect(ben.saved).toBe(false);
  roles.delete("ben");
  await until("ben is refused", () => ben.status === "refused");
  expect(ben.refusal).toBe(4404);
});

test("word of the hearing reaches everyone, and those who join later", async () => {
  const { hub, page } = await open();
  const ann = page("ann");
  await until("connected", () => ann.status === "connected");
  const status = { runId: "r", state: "running", step: "beats", fraction: 0.5, message: null } as const;
  hub.announceHearing("song", status);
  await until("ann knows", () => ann.hearing !== null);
  const ben = page("ben");
  await until("ben knows", () => ben.hearing !== null);
  expect(ann.hearing).toEqual(status);
  expect(ben.hearing).toEqual(status);
});

test("word that takes have changed reaches everyone, or one person's pages alone", async () => {
  const { hub, page } = await open();
  const [ann, ben] = [page("ann"), page("ben")];
  await until("connected", () => ann.status === "connected" && ben.status === "connected");
  expect([ann.takesTold, ben.takesTold]).toEqual([0, 0]);
  hub.announceTakes("song", "ann");
  await until("ann knows", () => ann.takesTold === 1);
  hub.announceTakes("song");
  await until("both know", () => ann.takesTold === 2 && ben.takesTold === 1);
});
