import { describe, expect, it } from "vitest";
import { lackOf, placesNow } from "@/app/songs/[songId]/parts/deskActs";
import { KEY_TABLE } from "@/app/songs/[songId]/parts/keyTable";
import { findActs } from "@/lib/client/acts/findActs";
import { actsOfRow, rowWords } from "@/lib/client/acts/keyRow";
import { readKeys } from "@/lib/client/acts/readKeys";

describe("keys as they are printed", () => {
  const pressed = (printed: string) =>
    readKeys(printed)?.map(({ key, ctrlKey, shiftKey, altKey }) =>
      [ctrlKey && "ctrl", shiftKey && "shift", altKey && "alt", key].filter(Boolean).join("+"),
    );
  it("are read as presses, what is held before them held for all", () => {
    expect(pressed("Space")).toEqual([" "]);
    expect(pressed("L")).toEqual(["l"]);
    expect(pressed("Shift V")).toEqual(["shift+V"]);
    expect(pressed("Ctrl Shift Z")).toEqual(["ctrl+shift+Z"]);
    expect(pressed("Alt ← →")).toEqual(["alt+ArrowLeft", "alt+ArrowRight"]);
    expect(pressed("[ ] { }")).toEqual(["[", "]", "{", "}"]);
    expect(pressed("~ or $")).toEqual(["~"]);
  });
  it("are no presses where they stand for what is typed", () => {
    for (const printed of ["1–7 or A–G", "0–9", "A B C F E …", "Esc, then ←", "Shift and arrows"])
      expect(readKeys(printed), printed).toBeNull();
  });
});

describe("a row of the table of keys", () => {
  it("is one act a key where braces say so, and reads in plain words", () => {
    expect(rowWords("the note {before|after}")).toBe("the note before, after");
    expect(actsOfRow(["Alt ↑ ↓", "a half step {up|down}"]).map(({ name, label }) => [name, label])).toEqual([
      ["a half step up", "Alt ↑"],
      ["a half step down", "Alt ↓"],
    ]);
  });
  it("is never guessed at: keys without a meaning each are not pressed", () => {
    expect(actsOfRow(["← →", "back, on"])).toEqual([{ name: "back, on", label: "← →", press: null }]);
    expect(actsOfRow(["← →", "{a|b|c}"])[0]?.press).toBeNull();
  });
});

describe("the acts of the song page", () => {
  const rows = KEY_TABLE.flatMap((group) => group.keys.map((row) => ({ group: group.name, row })));
  it("say for each of several keys in a row what it does", () => {
    // Copying goes by the browser's own acts, which no key press of a page sets off.
    const untold = rows.filter(
      ({ row }) => (readKeys(row[0])?.length ?? 0) > 1 && actsOfRow(row).some(({ press }) => press === null),
    );
    expect(untold.map(({ row }) => row[0]).filter((printed) => printed !== "Ctrl C X V")).toEqual([]);
  });
  it("have one meaning for a key in each place", () => {
    const places = [...new Set(KEY_TABLE.flatMap((group) => group.places ?? []))];
    const everywhere = KEY_TABLE.filter((group) => group.places === undefined);
    const anywhere = everywhere.flatMap((group) => group.keys.flatMap(actsOfRow)).map(({ label }) => label);
    expect(anywhere.filter((label, index) => anywhere.indexOf(label) !== index)).toEqual([]);
    // In a stretch the keys of changes hold where its own do not; taps go before all.
    for (const place of places.filter((each) => each !== "span" && each !== "section")) {
      const here = KEY_TABLE.filter((group) => group.places?.includes(place));
      const labels = here
        .flatMap((group) => group.keys.flatMap(actsOfRow))
        .flatMap(({ press }) => press?.label ?? []);
      expect(
        labels.filter((label, index) => labels.indexOf(label) !== index),
        place,
      ).toEqual([]);
    }
  });
  it("name what has to be done first wherever they are not for every place", () => {
    for (const { places, first, name } of KEY_TABLE) expect(Boolean(first), name).toBe(places !== undefined);
  });
  it("lack what is said until it is selected", () => {
    const bass = KEY_TABLE.find(({ name }) => name === "Bass")!;
    const taps = { isOpen: false } as Parameters<typeof placesNow>[0]["taps"];
    expect(lackOf(bass, placesNow({ selection: null, taps }))).toMatch(/^Select a note/);
    const selection = { kind: "bass", id: "b", stretch: 0 } as const;
    expect(lackOf(bass, placesNow({ selection, taps }))).toBeNull();
  });
});

describe("finding acts by words", () => {
  const act = (name: string, place: string, label: string | null, lack: string | null = null) => ({
    name,
    place,
    label,
    lack,
  });
  const acts = [
    act("rub out", "Bass", "Backspace", "Select a note first."),
    act("rub out", "Changes", "Backspace"),
    act("play, pause", "Everywhere", "Space"),
    act("playhead a beat back", "Changes", "Shift ←"),
  ];
  const found = (typed: string) => findActs(acts, typed).map(({ name, place }) => `${name} (${place})`);
  it("takes the beginnings of words in any order, of name, place and key", () => {
    expect(found("out rub")).toEqual(["rub out (Changes)", "rub out (Bass)"]);
    expect(found("bass ru")).toEqual(["rub out (Bass)"]);
    expect(found("space")).toEqual(["play, pause (Everywhere)"]);
    expect(found("ub")).toEqual([]);
  });
  it("puts what can be done now first, and all in order where nothing is typed", () => {
    expect(found("")).toHaveLength(4);
    expect(found("")[3]).toBe("rub out (Bass)");
    expect(found("PLAY")).toEqual(["play, pause (Everywhere)", "playhead a beat back (Changes)"]);
  });
});
