import { createHash } from "node:crypto";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { Role } from "@/lib/contracts/roles";
import type { Actor } from "@/lib/server/auth/session";
import { acceptInvite } from "@/lib/server/services/acceptInvite";
import { createBook } from "@/lib/server/services/createBook";
import { createInvite } from "@/lib/server/services/createInvite";
import { memberOf } from "@/lib/server/services/memberOf";
import { readBook } from "@/lib/server/services/readBook";
import { readInvite } from "@/lib/server/services/readInvite";
import { revokeInvite } from "@/lib/server/services/revokeInvite";
import { actorOf, addTestUser, openTestHouse, type TestHouse } from "../testHouse";

let house: TestHouse;
let maker: Actor;
let bookId: string;

beforeAll(async () => {
  house = await openTestHouse();
  maker = actorOf(await addTestUser(house.db, "Maker"));
});
afterAll(() => house.close());
beforeEach(async () => {
  bookId = (await createBook(house.db, maker, { title: "Tuesday lifts" })).id;
});

const newPerson = async (name: string) => actorOf(await addTestUser(house.db, name));

async function makeLink(role: Role, uses: number | null, days = 7) {
  const invite = await createInvite(house.db, maker, {
    bookId,
    role,
    uses,
    days,
    origin: "http://localhost:1",
  });
  return { ...invite, token: invite.url.split("/").at(-1)! };
}

const code = (promise: Promise<unknown>) =>
  promise.then(
    () => "accepted",
    (fault: { code?: string }) => fault.code,
  );

describe("a link into a book", () => {
  test("shows what it offers, then makes a member with its role", async () => {
    const link = await makeLink("student", 1);
    const person = await newPerson("Anna");
    expect(link.url).toBe(`http://localhost:1/invite/${link.token}`);
    expect(await readInvite(house.db, person, link.token)).toEqual({
      bookTitle: "Tuesday lifts",
      role: "student",
      madeByName: "Maker",
    });
    expect(await acceptInvite(house.db, person, link.token)).toEqual({ bookId });
    const { members } = await readBook(house.db, person, bookId);
    expect(members.map(({ name, role, isMaker }) => ({ name, role, isMaker }))).toEqual([
      { name: "Maker", role: "teacher", isMaker: true },
      { name: "Anna", role: "student", isMaker: false },
    ]);
  });

  test("is kept as the SHA-256 of its token only", async () => {
    const link = await makeLink("student", 1);
    const row = await house.db.invite.findUniqueOrThrow({ where: { id: link.id } });
    expect(row.tokenHash).toBe(createHash("sha256").update(link.token).digest("hex"));
    expect(JSON.stringify(row)).not.toContain(link.token);
  });

  test("of one use lets in exactly one of many who come at once", async () => {
    const link = await makeLink("student", 1);
    const people = await Promise.all(["A", "B", "C", "D", "E", "F", "G", "H"].map(newPerson));
    const outcomes = await Promise.all(people.map((one) => code(acceptInvite(house.db, one, link.token))));
    expect(outcomes.filter((outcome) => outcome === "accepted")).toHaveLength(1);
    expect(outcomes.filter((outcome) => outcome === "invite-over")).toHaveLength(7);
    const places = await Promise.all(people.map((one) => memberOf(house.db, bookId, one.userId)));
    expect(places.map((place) => place !== null)).toEqual(outcomes.map((outcome) => outcome === "accepted"));
    expect(await house.db.member.count({ where: { bookId } })).toBe(2);
  });

  test("of three uses lets in exactly three, one after another", async () => {
    const link = await makeLink("listener", 3);
    const outcomes: (string | undefined)[] = [];
    for (const name of ["A", "B", "C", "D"])
      outcomes.push(await code(acceptInvite(house.db, await newPerson(name), link.token)));
    expect(outcomes).toEqual(["accepted", "accepted", "accepted", "invite-over"]);
  });

  test("of any number of uses stays open", async () => {
    const link = await makeLink("listener", null);
    const people = await Promise.all(["A", "B", "C"].map(newPerson));
    const outcomes = await Promise.all(people.map((one) => code(acceptInvite(house.db, one, link.token))));
    expect(outcomes).toEqual(["accepted", "accepted", "accepted"]);
    expect((await readBook(house.db, maker, bookId)).invites.map((each) => each.usesLeft)).toEqual([null]);
  });

  test("clicked twice at once by one person uses up one place", async () => {
    const link = await makeLink("student", 2);
    const person = await newPerson("Twice");
    const outcomes = await Promise.all([1, 2, 3].map(() => code(acceptInvite(house.db, person, link.token))));
    expect(outcomes).toEqual(["accepted", "accepted", "accepted"]);
    expect((await readBook(house.db, maker, bookId)).invites.map((each) => each.usesLeft)).toEqual([1]);
  });

  test("that ran out, was taken back or never was, answers all alike", async () => {
    const person = await newPerson("Late");
    const over = await makeLink("student", 1);
    await house.db.invite.update({ where: { id: over.id }, data: { expiresAt: new Date(Date.now() - 1) } });
    const revoked = await makeLink("student", 1);
    await revokeInvite(house.db, maker, { bookId, inviteId: revoked.id });
    await revokeInvite(house.db, maker, { bookId, inviteId: revoked.id });
    for (const token of [over.token, revoked.token, "never-made"]) {
      expect(await code(readInvite(house.db, person, token))).toBe("invite-over");
      expect(await code(acceptInvite(house.db, person, token))).toBe("invite-over");
    }
    expect(await memberOf(house.db, bookId, person.userId)).toBeNull();
    expect((await readBook(house.db, maker, bookId)).invites).toEqual([]);
  });

  test("raises a member's role but never lowers it", async () => {
    const person = await newPerson("Rising");
    await acceptInvite(house.db, person, (await makeLink("listener", 1)).token);
    await acceptInvite(house.db, person, (await makeLink("student", 1)).token);
    expect(await memberOf(house.db, bookId, person.userId)).toMatchObject({ role: "student" });
    const lower = await makeLink("listener", 1);
    expect(await acceptInvite(house.db, person, lower.token)).toEqual({ bookId });
    expect(await memberOf(house.db, bookId, person.userId)).toMatchObject({ role: "student" });
    // Nothing changed, so the link still holds its use for someone else.
    expect(await code(acceptInvite(house.db, await newPerson("Next"), lower.token))).toBe("accepted");
    await acceptInvite(house.db, maker, (await makeLink("student", 1)).token);
    expect(await memberOf(house.db, bookId, maker.userId)).toMatchObject({ role: "teacher", isMaker: true });
  });

  test("is made and taken back by the book's maker alone", async () => {
    const teacher = await newPerson("Teacher");
    const link = await makeLink("teacher", 1);
    await acceptInvite(house.db, teacher, link.token);
    const input = { bookId, role: "student", uses: 1, days: 1, origin: "http://localhost:1" } as const;
    expect(await code(createInvite(house.db, teacher, input))).toBe("not-allowed");
    expect(await code(revokeInvite(house.db, teacher, { bookId, inviteId: link.id }))).toBe("not-allowed");
    expect((await readBook(house.db, teacher, bookId)).invites).toEqual([]);
  });

  test("cannot be taken back through another book", async () => {
    const link = await makeLink("student", 1);
    const other = await createBook(house.db, maker, { title: "Other" });
    expect(await code(revokeInvite(house.db, maker, { bookId: other.id, inviteId: link.id }))).toBe(
      "not-found",
    );
    expect(await code(acceptInvite(house.db, await newPerson("In"), link.token))).toBe("accepted");
  });
});
