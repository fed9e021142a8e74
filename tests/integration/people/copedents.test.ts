import { afterAll, beforeAll, describe, expect, test } from "vitest";
import * as inBook from "@/app/api/copedents/[copedentId]/books/[bookId]/route";
import * as one from "@/app/api/copedents/[copedentId]/route";
import * as all from "@/app/api/copedents/route";
import * as usual from "@/app/api/copedents/usual/route";
import type { CopedentPage, CopedentRow, CopedentShelf } from "@/lib/contracts/copedents";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { openRouteHouse, type RouteHouse } from "./houseForRoutes";

type Handler = (request: Request, context: { params: Promise<Record<string, string>> }) => Promise<Response>;
interface Person {
  cookie: string;
  userId: string;
}

let house: RouteHouse;
let owner: Person;
let student: Person;
let listener: Person;
let outsider: Person;
let bookId: string;
/** A book that only its maker, the student, is in. */
let otherBookId: string;

const CHART: Chart = {
  name: "Own E9",
  strings: [66, 63, 68, 64],
  frets: 24,
  changes: [{ id: "F", slot: "LKL", moves: { "4": 1 } }],
};

function call(
  handler: Handler,
  method: string,
  who: Person | null,
  params: Record<string, string> = {},
  body?: unknown,
): Promise<Response> {
  const request = house.request(method, "/api/x", { cookie: who?.cookie, body });
  return handler(request, { params: Promise.resolve(params) });
}

async function refused(answer: Promise<Response>): Promise<[number, string]> {
  const got = await answer;
  const { error } = (await got.json()) as { error: { code: string } };
  return [got.status, error.code];
}

async function make(who: Person, chart: Chart = CHART): Promise<CopedentRow> {
  return (await (await call(all.POST, "POST", who, {}, { chart })).json()) as CopedentRow;
}

const shelfOf = async (who: Person) => (await (await call(all.GET, "GET", who)).json()) as CopedentShelf;
const share = (who: Person, copedentId: string, into = bookId) =>
  call(inBook.PUT, "PUT", who, { copedentId, bookId: into });
const unshare = (who: Person, copedentId: string, from = bookId) =>
  call(inBook.DELETE, "DELETE", who, { copedentId, bookId: from });

beforeAll(async () => {
  house = await openRouteHouse();
  [owner, student, listener, outsider] = [
    await house.signUp("Owner"),
    await house.signUp("Student"),
    await house.signUp("Listener"),
    await house.signUp("Outsider"),
  ];
  const members = [
    { userId: owner.userId, role: "student" as const },
    { userId: listener.userId, role: "listener" as const },
  ];
  const teacher = { userId: student.userId, role: "teacher" as const, isMaker: true };
  bookId = (
    await house.db.book.create({
      data: { id: "shared-book", title: "Tuesdays", members: { create: [teacher, ...members] } },
    })
  ).id;
  otherBookId = (
    await house.db.book.create({
      data: { id: "other-book", title: "Hidden", members: { create: [teacher] } },
    })
  ).id;
});
afterAll(() => house.close());

describe("a player's own copedents", () => {
  test("are kept as they were charted, and seen by nobody else", async () => {
    const made = await make(owner);
    expect(made).toMatchObject({ chart: CHART, revision: 1, isOwn: true, ownerName: "Owner", sharedIn: [] });
    expect((await shelfOf(owner)).own.map(({ id }) => id)).toContain(made.id);
    for (const other of [student, listener, outsider]) {
      const { own, shared } = await shelfOf(other);
      expect([...own, ...shared]).toEqual([]);
      const params = { copedentId: made.id };
      const edit = { revision: 1, chart: { ...CHART, name: "Taken" } };
      for (const answer of [
        call(one.GET, "GET", other, params),
        call(one.PATCH, "PATCH", other, params, edit),
        call(one.DELETE, "DELETE", other, params),
        share(other, made.id),
        call(usual.PUT, "PUT", other, {}, { copedentId: made.id }),
      ])
        expect(await refused(answer)).toEqual([404, "not-found"]);
    }
    for (const answer of [
      call(all.GET, "GET", null),
      call(all.POST, "POST", null, {}, { chart: CHART }),
      call(one.GET, "GET", null, { copedentId: made.id }),
      call(usual.PUT, "PUT", null, {}, null),
      call(inBook.PUT, "PUT", null, { copedentId: made.id, bookId }),
    ])
      expect(await refused(answer)).toEqual([401, "not-signed-in"]);
    expect(await house.db.copedent.findUniqueOrThrow({ where: { id: made.id } })).toMatchObject({
      name: "Own E9",
      revision: 1,
    });
  });

  test("are changed and renamed by their owner, never over what was not seen", async () => {
    const { id } = await make(owner);
    const params = { copedentId: id };
    const renamed = { ...CHART, name: "Renamed", changes: [] };
    const answer = await call(one.PATCH, "PATCH", owner, params, { revision: 1, chart: renamed });
    expect(await answer.json()).toMatchObject({ revision: 2, chart: renamed });
    // A second window that still shows revision 1.
    const late = call(one.PATCH, "PATCH", owner, params, { revision: 1, chart: CHART });
    expect(await refused(late)).toEqual([409, "changed-elsewhere"]);
    const page = (await (await call(one.GET, "GET", owner, params)).json()) as CopedentPage;
    expect(page).toMatchObject({ revision: 2, chart: renamed, isUsual: false });
    expect(page.books).toEqual([{ bookId, bookTitle: "Tuesdays" }]);
  });

  test("are answered again where the answer was lost on the way, and written once", async () => {
    const { id } = await make(owner);
    const params = { copedentId: id };
    const edit = { revision: 1, chart: { ...CHART, name: "Sent twice" } };
    const first = await call(one.PATCH, "PATCH", owner, params, edit);
    const again = await call(one.PATCH, "PATCH", owner, params, edit);
    expect([first.status, again.status]).toEqual([200, 200]);
    expect(await again.json()).toMatchObject({ revision: 2, chart: edit.chart });
    // The same strings and pedals under another name are another chart; so is what was never read.
    for (const other of [
      { revision: 1, chart: CHART },
      { revision: 9, chart: edit.chart },
    ])
      expect(await refused(call(one.PATCH, "PATCH", owner, params, other))).toEqual([
        409,
        "changed-elsewhere",
      ]);
    const kept = await house.db.copedent.findUniqueOrThrow({ where: { id } });
    expect(kept).toMatchObject({ name: "Sent twice", revision: 2 });
  });

  test("of two changes at once one is written and the other told", async () => {
    const { id } = await make(owner);
    const edits = ["One", "Two", "Three"].map((name) =>
      call(one.PATCH, "PATCH", owner, { copedentId: id }, { revision: 1, chart: { ...CHART, name } }),
    );
    const statuses = (await Promise.all(edits)).map(({ status }) => status);
    expect(statuses.sort()).toEqual([200, 409, 409]);
  });

  test.each([
    ["no strings", { strings: [] }, /strings: there are none/],
    [
      "a string that is not there",
      { strings: [64], changes: [{ id: "A", slot: "P1", moves: { "2": 1 } }] },
      /no string/,
    ],
    [
      "two pedals at one place",
      {
        strings: [64],
        changes: [
          { id: "A", slot: "P1", moves: {} },
          { id: "B", slot: "P1", moves: {} },
        ],
      },
      /B stands at P1, where A is already/,
    ],
    ["an unknown field", { strings: [64], colour: "red" }, /"colour" is not a field/],
  ])("with %s is refused in words, and nothing is kept", async (_what, chart, words) => {
    const before = await house.db.copedent.count();
    const answer = await call(all.POST, "POST", owner, {}, { chart });
    expect(answer.status).toBe(400);
    const { error } = (await answer.json()) as { error: { message: string } };
    expect(error.message).toMatch(words);
    expect(error.message).toMatch(/Nothing was changed/);
    expect(await house.db.copedent.count()).toBe(before);
  });

  test("are removed by their owner, and are gone from book and usual guitar", async () => {
    const { id } = await make(owner);
    await share(owner, id);
    await call(usual.PUT, "PUT", owner, {}, { copedentId: id });
    expect((await call(one.DELETE, "DELETE", owner, { copedentId: id })).status).toBe(204);
    expect(await refused(call(one.GET, "GET", owner, { copedentId: id }))).toEqual([404, "not-found"]);
    expect((await shelfOf(student)).shared).toEqual([]);
    expect((await shelfOf(owner)).usual).toBeNull();
  });
});

describe("a copedent shared in a book", () => {
  test("is looked at by all its members, and changed by its owner alone", async () => {
    const { id } = await make(owner);
    const params = { copedentId: id };
    expect((await share(owner, id)).status).toBe(204);
    expect((await share(owner, id)).status).toBe(204);
    for (const member of [student, listener]) {
      expect((await shelfOf(member)).shared).toMatchObject([
        { id, ownerName: "Owner", isOwn: false, sharedIn: [{ bookId, bookTitle: "Tuesdays" }] },
      ]);
      const page = await (await call(one.GET, "GET", member, params)).json();
      expect(page).toMatchObject({ chart: CHART, books: [] });
      for (const answer of [
        call(one.PATCH, "PATCH", member, params, { revision: 1, chart: { ...CHART, name: "Taken" } }),
        call(one.DELETE, "DELETE", member, params),
        share(member, id),
        call(usual.PUT, "PUT", member, {}, { copedentId: id }),
      ])
        expect(await refused(answer)).toEqual([403, "not-yours"]);
    }
    expect(await refused(call(one.GET, "GET", outsider, params))).toEqual([404, "not-found"]);
    expect(await house.db.copedent.findUniqueOrThrow({ where: { id } })).toMatchObject({ name: "Own E9" });

    expect(await refused(unshare(listener, id))).toEqual([403, "not-yours"]);
    expect(await refused(unshare(outsider, id))).toEqual([404, "not-found"]);
    expect((await unshare(owner, id)).status).toBe(204);
    expect(await refused(call(one.GET, "GET", listener, params))).toEqual([404, "not-found"]);
    expect((await shelfOf(owner)).own.find((each) => each.id === id)?.sharedIn).toEqual([]);
  });

  test("is hidden again by whoever made the book", async () => {
    const { id } = await make(owner);
    await share(owner, id);
    expect((await unshare(student, id)).status).toBe(204);
    expect((await shelfOf(listener)).shared).toEqual([]);
  });

  test("goes into no book that its owner is not in, nor by a listener's hand", async () => {
    const { id } = await make(owner);
    expect(await refused(share(owner, id, otherBookId))).toEqual([404, "not-found"]);
    expect(await refused(share(owner, id, "there-is-no-such-book"))).toEqual([404, "not-found"]);
    const heard = await make(listener);
    expect(await refused(share(listener, heard.id))).toEqual([403, "not-allowed"]);
    expect(await house.db.copedentShare.count({ where: { copedentId: { in: [id, heard.id] } } })).toBe(0);
  });

  test("tells nobody of other books that it is shared in", async () => {
    const { id } = await make(student);
    await share(student, id);
    await share(student, id, otherBookId);
    const [seen] = (await shelfOf(owner)).shared.filter((each) => each.id === id);
    expect(seen?.sharedIn).toEqual([{ bookId, bookTitle: "Tuesdays" }]);
  });
});

describe("the usual guitar", () => {
  test("is a preset, one of one's own, or none", async () => {
    const { id } = await make(owner);
    expect((await shelfOf(owner)).usual).toBeNull();
    await call(usual.PUT, "PUT", owner, {}, { presetId: "e9" });
    expect((await shelfOf(owner)).usual).toEqual({ presetId: "e9" });
    await call(usual.PUT, "PUT", owner, {}, { copedentId: id });
    expect((await shelfOf(owner)).usual).toEqual({ copedentId: id });
    await call(usual.PUT, "PUT", owner, {}, null);
    expect((await shelfOf(owner)).usual).toBeNull();
    const unknown = call(usual.PUT, "PUT", owner, {}, { presetId: "no-such-preset" });
    expect((await refused(unknown))[0]).toBe(400);
  });
});
