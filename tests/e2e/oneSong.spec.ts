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

  await test.step("the part is typed, and the downloaded tab says what was typed", async () => {
    const { page } = teacher;
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
    const read = readTab(text).map(({ sign, ...cell }) => ({ ...cell, picked: sign === "" }));
    expect(read).toEqual(
      typed.map(({ changes, ...cell }) => ({ ...cell, changes: changes.join(""), picked: true })),
    );
  });
});
