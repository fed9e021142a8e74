import { describe, expect, it } from "vitest";
import { KeptDrafts } from "@/lib/client/questions/KeptDrafts";

const WHOSE = { userId: "ines", songId: "song" };

function store() {
  const kept = new Map<string, string>();
  return {
    kept,
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  };
}

describe("what was begun and not sent", () => {
  it("is there again when the page is opened anew, each for what it was written for", () => {
    const here = store();
    const drafts = new KeptDrafts(WHOSE, here);
    drafts.write("ask", "pedals or");
    drafts.write("reply.q", "watch");
    const again = new KeptDrafts(WHOSE, here);
    expect([again.textOf("ask"), again.textOf("reply.q"), again.textOf("reply.r")]).toEqual([
      "pedals or",
      "watch",
      "",
    ]);
    again.write("ask", "  ");
    expect(new KeptDrafts(WHOSE, here).now().texts).toEqual({ "reply.q": "watch" });
  });

  it("is each person's own, for each song", () => {
    const here = store();
    new KeptDrafts(WHOSE, here).write("ask", "mine");
    expect(new KeptDrafts({ ...WHOSE, userId: "marlow" }, here).textOf("ask")).toBe("");
    expect(new KeptDrafts({ ...WHOSE, songId: "other" }, here).textOf("ask")).toBe("");
  });

  it("stays when another page on the same song keeps something too", () => {
    const here = store();
    const [one, other] = [new KeptDrafts(WHOSE, here), new KeptDrafts(WHOSE, here)];
    one.write("ask", "pedals or");
    other.write("reply.q", "watch");
    expect(other.textOf("ask")).toBe("pedals or");
    expect(new KeptDrafts(WHOSE, here).now().texts).toEqual({ ask: "pedals or", "reply.q": "watch" });
    one.write("ask", "");
    expect(other.textOf("ask")).toBe("");
  });

  it("is there until the page closes where the browser has no room for it", () => {
    const here = store();
    new KeptDrafts(WHOSE, here).write("ask", "pedals");
    const full = {
      ...here,
      setItem: () => {
        throw new DOMException("full", "QuotaExceededError");
      },
    };
    const drafts = new KeptDrafts(WHOSE, full);
    drafts.write("ask", "pedals or slide?");
    drafts.write("reply.q", "watch");
    expect([drafts.textOf("ask"), drafts.textOf("reply.q")]).toEqual(["pedals or slide?", "watch"]);
  });

  it("leaves out what cannot be read", () => {
    const here = store();
    here.setItem(
      "liftbook.drafts.ines.song",
      JSON.stringify({ texts: { ask: 7, reply: "x".repeat(20_001), fine: "y" } }),
    );
    expect(new KeptDrafts(WHOSE, here).now().texts).toEqual({ fine: "y" });
    here.setItem("liftbook.drafts.ines.song", JSON.stringify({ texts: null }));
    expect(new KeptDrafts(WHOSE, here).now().texts).toEqual({});
  });
});
