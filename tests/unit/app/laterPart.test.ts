import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { laterPart } from "@/app/parts/laterPart";

const Note = ({ text }: { text: string }) => createElement("p", null, text);

describe("a part of a page that is fetched apart from it", () => {
  it("shows nothing before it has come, and at the first drawing what was fetched ahead", async () => {
    let fetches = 0;
    const { Part, fetch } = laterPart(async () => {
      fetches += 1;
      return Note;
    });
    const drawn = () => renderToStaticMarkup(createElement(Part, { text: "in pencil" }));
    expect(drawn()).toBe("");
    await fetch();
    expect(drawn()).toBe("<p>in pencil</p>");
    await fetch();
    expect(fetches).toBe(1);
  });

  it("is fetched anew after it did not come", async () => {
    let isThere = false;
    const { Part, fetch } = laterPart(async () => {
      if (!isThere) throw new Error("no connection");
      return Note;
    });
    await expect(fetch()).rejects.toThrow("no connection");
    isThere = true;
    await fetch();
    expect(renderToStaticMarkup(createElement(Part, { text: "ink" }))).toBe("<p>ink</p>");
  });
});
