import { readFile } from "node:fs/promises";
import type { Page, WebSocketRoute } from "@playwright/test";
import { readTab } from "../unit/notation/readTab";
import {
  addAndOpen,
  changesOf,
  expect,
  inviteInto,
  makeBook,
  test,
  testRecording,
  waitForPencil,
  waitForSaved,
} from "./liftbook";

/** From where to where the spoken name of a change says that it lasts. */
function stretchOf(words: string): { from: string; to: string } {
  const found = /(bar \d+ beat \d+) to (bar \d+ beat \d+)/.exec(words);
  if (!found) throw new Error(`No stretch in "${words}"`);
  return { from: found[1]!, to: found[2]! };
}

/** Beats between two places in bars of four. */
function beatsBetween(from: string, to: string): number {
  const beats = (words: string) => {
    const [bar = 0, beat = 0] = words.match(/\d+/g)!.map(Number);
    return bar * 4 + beat;
  };
  return beats(to) - beats(from);
}

/** A cable that can be pulled: sockets are cut and new ones refused until it is plugged in again. */
async function cableOf(page: Page) {
  const open = new Set<WebSocketRoute>();
  let plugged = true;
  await page.routeWebSocket(/\/sync\//, (socket) => {
    if (!plugged) return void socket.close({ code: 4503 });
    open.add(socket);
    socket.connectToServer();
  });
  return {
    async pull() {
      plugged = false;
      await page.context().setOffline(true);
      for (const socket of open) await socket.close({ code: 4503 });
      open.clear();
    },
    /** The song's line alone: pages still come. */
    async cut() {
      plugged = false;
      for (const socket of open) await socket.close({ code: 4503 });
      open.clear();
    },
    async plugIn() {
      plugged = true;
      await page.context().setOffline(false);
    },
  };
}

test("a recording comes in, is heard, inked by two, written down and taken out as tab", async ({
  newcomer,
}) => {
  const teacher = await newcomer("Odette");
  const bookUrl = await makeBook(teacher.page, "Thursday pairs");
  await expect(teacher.page.getByText(/stays private to this book/)).toBeVisible();
  const songUrl = await addAndOpen(teacher.page, testRecording());

  await test.step("progress is named while the machine listens, then pencil appears", async () => {
    const progress = teacher.page.getByRole("region", { name: "Hearing" });
    await expect(progress.getByRole("status")).toHaveText(/\d+ %|Waiting/i, { timeout: 60_000 });
    await waitForPencil(teacher.page);
    await expect(changesOf(teacher.page).first()).toHaveAccessibleName(
      /in pencil, heard by the machine, \d+ % sure/,
    );
    await expect(progress).toBeHidden();
  });

  const student = await newcomer("Piet");
  const cable = await cableOf(student.page);
  await test.step("a second person comes in by a link", async () => {
    await inviteInto(teacher, student, bookUrl, "student");
    await teacher.page.goto(songUrl);
    await student.page.goto(songUrl);
    await waitForPencil(teacher.page);
    await waitForPencil(student.page);
    await expect(teacher.page.getByRole("list", { name: "People on this page" })).toContainText("Piet");
  });

  await test.step("one inks a change and the other sees whose ink it is", async () => {
    await changesOf(student.page).nth(1).click();
    await student.page.keyboard.press("Enter");
    await expect(changesOf(student.page).nth(1)).toHaveAccessibleName(/inked by you/);
    await expect(changesOf(teacher.page).nth(1)).toHaveAccessibleName(/inked by Piet/);
    await waitForSaved(student.page);
  });

  await test.step("both edit at once", async () => {
    await changesOf(teacher.page).nth(2).click();
    await changesOf(student.page).nth(3).click();
    await Promise.all([
      teacher.page.keyboard.press("Enter"),
      (async () => {
        await student.page.keyboard.press("4");
        await student.page.keyboard.press("Enter");
      })(),
    ]);
    await expect(changesOf(teacher.page).nth(2)).toHaveAccessibleName(/inked by you/);
    await expect(changesOf(teacher.page).nth(3)).toHaveAccessibleName(/^4, .*inked by Piet/);
    await expect(changesOf(student.page).nth(2)).toHaveAccessibleName(/inked by Odette/);
    await expect(changesOf(student.page).nth(3)).toHaveAccessibleName(/^4, .*inked by you/);
  });

  await test.step("one goes offline, edits, and comes back", async () => {
    await cable.pull();
    await expect(student.page.getByText("Offline: kept in this browser")).toBeVisible();
    await changesOf(student.page).nth(0).click();
    await student.page.keyboard.press("Enter");
    await expect(changesOf(student.page).nth(0)).toHaveAccessibleName(/inked by you/);
    await changesOf(teacher.page).nth(4).click();
    await teacher.page.keyboard.press("Enter");
    await expect(changesOf(teacher.page).nth(4)).toHaveAccessibleName(/inked by you/);
    await expect(changesOf(teacher.page).nth(0)).toHaveAccessibleName(/in pencil/);
    await cable.plugIn();
    await expect(changesOf(teacher.page).nth(0)).toHaveAccessibleName(/inked by Piet/, { timeout: 40_000 });
    await expect(changesOf(student.page).nth(4)).toHaveAccessibleName(/inked by Odette/);
    await expect(changesOf(student.page).nth(0)).toHaveAccessibleName(/inked by you/);
    await waitForSaved(student.page);
  });

  await test.step("undo takes back one's own acts only", async () => {
    await student.page.keyboard.press("Escape");
    await student.page.keyboard.press("Control+z");
    await expect(changesOf(teacher.page).nth(0)).toHaveAccessibleName(/in pencil/);
    await expect(changesOf(teacher.page).nth(4)).toHaveAccessibleName(/inked by you/);
    await student.page.keyboard.press("Control+Shift+z");
    await expect(changesOf(teacher.page).nth(0)).toHaveAccessibleName(/inked by Piet/);
  });

  await test.step("what was done offline outlives a reload", async () => {
    await cable.cut();
    await changesOf(student.page).nth(1).click();
    await student.page.keyboard.press("6");
    await student.page.keyboard.press("Enter");
    await expect(changesOf(student.page).nth(1)).toHaveAccessibleName(/^6, .*inked by you/);
    await expect(student.page.getByText("Offline: kept in this browser")).toBeVisible();
    await student.page.reload();
    await expect(changesOf(student.page).nth(1)).toHaveAccessibleName(/^6, .*inked by you/);
    await expect(changesOf(teacher.page).nth(1)).not.toHaveAccessibleName(/^6, /);
    await cable.plugIn();
    await expect(changesOf(teacher.page).nth(1)).toHaveAccessibleName(/^6, .*inked by Piet/, {
      timeout: 40_000,
    });
    await waitForSaved(student.page);
  });

  await test.step("a change is split, merged, moved by key and by mouse, rubbed out and put back", async () => {
    const { page } = teacher;
    const box = (index: number) => changesOf(page).nth(index);
    const words = async (index: number) => (await box(index).getAttribute("title")) ?? "";
    // The longest of those wholly in view leaves room to split it and to move its edge.
    const widths = await changesOf(page).evaluateAll((boxes) => {
      const lane = boxes[0]!.closest("section")!.getBoundingClientRect();
      return boxes.map((each) => {
        const { left, right } = each.getBoundingClientRect();
        return left > lane.left + 90 && right < lane.right - 20 ? right - left : 0;
      });
    });
    const at = widths.indexOf(Math.max(...widths));
    const count = await changesOf(page).count();
    const whole = await words(at);
    await box(at).click();
    await page.keyboard.press("s");
    await expect(changesOf(page)).toHaveCount(count + 1);
    await expect(changesOf(student.page)).toHaveCount(count + 1);
    expect(stretchOf(await words(at)).from).toBe(stretchOf(whole).from);
    expect(stretchOf(await words(at)).to).toBe(stretchOf(await words(at + 1)).from);
    expect(stretchOf(await words(at + 1)).to).toBe(stretchOf(whole).to);

    const before = stretchOf(await words(at));
    await box(at).click();
    await page.keyboard.press("{");
    await expect(box(at)).not.toHaveAttribute("title", new RegExp(`to ${before.to}`));
    const moved = stretchOf(await words(at));
    expect(moved.from).toBe(before.from);
    expect(stretchOf(await words(at + 1)).from).toBe(moved.to);

    const edge = (await box(at + 1).boundingBox())!;
    const beatPx = (await box(at).boundingBox())!.width / beatsBetween(moved.from, moved.to);
    await page.mouse.move(edge.x, edge.y + edge.height / 2);
    await page.mouse.down();
    await page.mouse.move(edge.x + beatPx / 2, edge.y + edge.height / 2);
    await page.mouse.move(edge.x + beatPx, edge.y + edge.height / 2);
    await page.mouse.up();
    await expect(box(at)).toHaveAttribute("title", new RegExp(`to ${before.to}`));
    expect(stretchOf(await words(at + 1)).from).toBe(before.to);

    await box(at).click();
    await page.keyboard.press("m");
    await expect(changesOf(page)).toHaveCount(count);
    expect(stretchOf(await words(at))).toEqual(stretchOf(whole));

    await box(at).click();
    await page.keyboard.press("Delete");
    await expect(changesOf(page)).toHaveCount(count - 1);
    await expect(changesOf(student.page)).toHaveCount(count - 1);
    await page.getByText(/^Rubbed out \(/).click();
    await page
      .getByRole("row", { name: new RegExp(stretchOf(whole).from) })
      .getByRole("button", { name: "Put back" })
      .click();
    await expect(changesOf(page)).toHaveCount(count);
    expect(stretchOf(await words(at))).toEqual(stretchOf(whole));
  });

  await test.step("each sees where the other is, by name", async () => {
    const flag = (page: Page, lane: string) =>
      page.getByRole("region", { name: lane }).getByText("Piet", { exact: true });
    await changesOf(student.page).nth(1).click();
    await expect(flag(teacher.page, "Changes")).toBeVisible();
    await student.page.keyboard.press("p");
    await expect(flag(teacher.page, "Part")).toBeVisible();
    await expect(flag(teacher.page, "Changes")).toHaveCount(0);
    await student.page.keyboard.press("Escape");
    await expect(flag(teacher.page, "Part")).toHaveCount(0);
  });

  await test.step("the part is typed, and the downloaded tab says what was typed", async () => {
    const { page } = teacher;
    await page.keyboard.press("Escape");
    await page.keyboard.press("Home");
    await changesOf(page).nth(1).click();
    await page.keyboard.press("p");
    const place = page.getByRole("region", { name: "Selected" }).getByRole("status");
    await expect(place).toHaveText(/String 5/);
    const typed: { string: number; fret: number; changes: string[]; bar: number; beat: number }[] = [];
    for (const { keys, fret, changes } of [
      { keys: ["3"], fret: 3, changes: [] },
      { keys: ["1", "0", "a"], fret: 10, changes: ["A"] },
      { keys: ["8", "a", "f"], fret: 8, changes: ["A", "F"] },
    ]) {
      const words = (await place.textContent()) ?? "";
      const where = /String (\d+), bar (\d+) beat (\d+)/.exec(words);
      expect(where, words).not.toBeNull();
      for (const key of keys) await page.keyboard.press(key);
      await expect(place).toHaveText(new RegExp(`: ${fret}${changes.join("")},`));
      const [string, bar, beat] = where!.slice(1).map(Number) as [number, number, number];
      typed.push({ string, fret, changes, bar, beat });
      await page.keyboard.press("ArrowRight");
    }
    await waitForSaved(page);
    await page.getByRole("button", { name: /tab/i }).first().click();
    const waiting = page.waitForEvent("download");
    await page.getByRole("button", { name: "Download" }).click();
    const download = await waiting;
    const text = await readFile(await download.path(), "utf8");
    await expect(page.getByLabel("Text tab of the part")).toHaveValue(text);
    const read = readTab(text).map(({ sign, string, fret, changes, bar, beat }) => ({
      ...{ string, fret, changes, bar, beat },
      picked: sign === "",
    }));
    expect(read).toEqual(
      typed.map(({ changes, ...cell }) => ({ ...cell, changes: changes.join(""), picked: true })),
    );
  });

  await test.step("the bench says where a pair lies, and a chosen place is written", async () => {
    const { page } = teacher;
    await page.keyboard.press("Escape");
    await page.keyboard.press("Escape");
    await page.keyboard.press("Home");
    await changesOf(page).nth(3).click();
    await page.keyboard.press("p");
    const selected = page.getByRole("region", { name: "Selected" });
    await expect(selected.getByRole("status")).toHaveText(/: nothing$/);
    const bench = page.getByRole("region", { name: "Where it lies" });
    // F#4 and D5 as the published chart of E9 gives them (lib/instrument/copedents/e9.ts names it): strings 5 and 3 are
    // B3 and G#4, and A and B raise them by 2 and 1, so at fret 5 both sound; strings 6 and 4, G#3 and E4, do at fret 10.
    await bench.getByLabel("Notes").fill("F#4 D5");
    const cards = bench.locator("[data-place]");
    const withPedals = cards.filter({ hasText: /^3·5 fret 5 A\+B/ });
    await expect(withPedals).toBeVisible();
    await expect(cards.filter({ hasText: /^4·6 fret 10\s*Bar/ })).toBeVisible();
    const ease = await cards.evaluateAll((each) =>
      each.map((card) => Number(/\d+$/.exec(card.textContent)![0])),
    );
    expect(ease[0]).toBe(100);
    expect(ease).toEqual(ease.toSorted((one, other) => other - one));
    await withPedals.click();
    await expect(selected.getByRole("status")).toHaveText(/^String 3, .*: 5AB,/);
    await expect(selected.getByRole("button", { name: "String 3", exact: true })).toHaveAttribute(
      "aria-pressed",
      "true",
    );
    await expect(selected.getByRole("button", { name: "String 5", exact: true })).toHaveAttribute(
      "aria-pressed",
      "true",
    );
    await expect(selected.getByRole("spinbutton", { name: "Fret" })).toHaveValue("5");
    await waitForSaved(page);
  });
});
