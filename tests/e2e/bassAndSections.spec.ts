import type { Page } from "@playwright/test";
import {
  addAndOpen,
  changesOf,
  dragOverRecord,
  expect,
  headingOf,
  inviteInto,
  makeBook,
  selectedOf,
  test,
  testRecording,
  toBassUnder,
  waitForPencil,
  waitForSaved,
} from "./liftbook";

const sectionsOf = (page: Page) =>
  page.getByRole("region", { name: "Sections" }).locator("button[data-section]");
test("the bass line and the sections stand in pencil and are settled by hand, by key and by others", async ({
  newcomer,
}) => {
  const teacher = await newcomer("Odile");
  const { page } = teacher;
  const bookUrl = await makeBook(page, "From below");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const big = selectedOf(page).getByRole("status");

  await test.step("both are pencilled by the machine, with how sure it is", async () => {
    await expect(sectionsOf(page).first()).toHaveAccessibleName(
      /^Section A, the start to .*in pencil, heard by the machine, \d+ % sure$/,
    );
    await toBassUnder(page, 1);
    await expect(big).toHaveText(/^[♭♯]?[1-7][A-G][♭♯]?[0-4]$/);
    await expect(selectedOf(page)).toContainText(/In pencil, heard by the machine, \d+ % sure/);
    await page.keyboard.press("ArrowRight");
    await expect(headingOf(page)).toHaveText("Bass note");
  });

  await test.step("the details of a change read its bass as numbers", async () => {
    await page.keyboard.press("ArrowUp");
    await expect(headingOf(page)).toHaveText("Change");
    await expect(selectedOf(page)).toContainText(/Bass ?[♭♯]?[1-7]/);
  });

  await test.step("a note is inked, told another number, moved and taken back", async () => {
    await toBassUnder(page, 1);
    const before = (await big.textContent()) ?? "";
    await page.keyboard.press("Enter");
    await expect(selectedOf(page)).toContainText("Inked by you");
    await page.keyboard.press("4");
    await expect(big).toHaveText(/^4[A-G]/);
    await page.keyboard.press("Alt+ArrowUp");
    await expect(big).toHaveText(/^♯4[A-G]/);
    for (let undo = 0; undo < 3; undo += 1) await page.keyboard.press("Control+z");
    await expect(big).toHaveText(before);
    await expect(selectedOf(page)).toContainText("In pencil");
  });

  const student = await newcomer("Pip");
  await test.step("a section is named in its place, and the other sees the name", async () => {
    await inviteInto(teacher, student, bookUrl, "student");
    await page.goto(songUrl);
    await student.page.goto(songUrl);
    await waitForPencil(page);
    await waitForPencil(student.page);
    await changesOf(page).nth(1).click();
    await page.keyboard.press("ArrowUp");
    await expect(headingOf(page)).toHaveText("Section");
    await page.keyboard.press("F2");
    await page.getByLabel("Name of the section, and of those that repeat it").fill("Intro");
    await page.keyboard.press("Enter");
    await expect(sectionsOf(page).first()).toHaveAccessibleName(/^Section Intro, .*inked by you/);
    await expect(sectionsOf(student.page).first()).toHaveAccessibleName(/^Section Intro, .*inked by Odile/);
  });

  await test.step("a section is made of a few bars, chosen on the strip, and looped", async () => {
    await dragOverRecord(page, 0.45, 0.75);
    await page.getByRole("button", { name: "Make it a section" }).click();
    await page.getByLabel("Name of the section, and of those that repeat it").fill("Turnaround");
    await page.keyboard.press("Enter");
    await expect(sectionsOf(student.page).filter({ hasText: "Turnaround" })).toHaveCount(1);
    await page.keyboard.press("Escape");
    await page
      .getByRole("list", { name: "Sections of the song" })
      .getByRole("button", { name: /^Section Turnaround/ })
      .click();
    await expect(page.getByRole("heading", { name: "Turnaround" })).toBeVisible();
    await page.keyboard.press("l");
    await expect(selectedOf(page).getByRole("button", { name: "Stop looping" })).toBeVisible();
    await page.keyboard.press("l");
    await page.keyboard.press("Space");
  });

  await test.step("a section is rubbed out and put back", async () => {
    await page
      .getByRole("list", { name: "Sections of the song" })
      .getByRole("button", { name: /^Section Turnaround/ })
      .click();
    await page.keyboard.press("Delete");
    await expect(sectionsOf(page).filter({ hasText: "Turnaround" })).toHaveCount(0);
    await page.getByText(/^Rubbed out \(/).click();
    await page
      .getByRole("row", { name: /section Turnaround/ })
      .getByRole("button", { name: "Put back" })
      .click();
    await expect(sectionsOf(page).filter({ hasText: "Turnaround" })).toHaveCount(1);
    await waitForSaved(page);
  });
});

test("the machine's other guesses are one key or one tap away", async ({ newcomer }) => {
  const { page } = await newcomer("Quill");
  await makeBook(page, "Second thoughts");
  await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const guesses = selectedOf(page).getByRole("button", { name: /, (under )?\d+ % sure$/ });
  /** The guess without how sure it is: how it would read as the change. */
  const wordsOf = async () => {
    const lines = await guesses.locator(".unseen").allTextContents();
    return lines.map((words) => words.replace(/, (under )?\d+ % sure$/, ""));
  };

  await test.step("O goes round the guesses of a change, and undo takes each back", async () => {
    await changesOf(page).nth(1).click();
    await expect(guesses).toHaveCount(3);
    const [own = "", second = "", third = ""] = await wordsOf();
    expect(new Set([own, second, third]).size).toBe(3);
    const change = changesOf(page).nth(1);
    const says = (words: string, mark: RegExp) =>
      expect
        .poll(async () => {
          const name = (await change.getAttribute("title")) ?? "";
          return name.startsWith(`${words}, `) && mark.test(name);
        })
        .toBe(true);
    await says(own, /in pencil/);
    for (const words of [second, third, own]) {
      await page.keyboard.press("o");
      await says(words, /inked by you/);
    }
    for (let undo = 0; undo < 3; undo += 1) await page.keyboard.press("Control+z");
    await says(own, /in pencil/);
    await guesses.nth(2).click();
    await says(third, /inked by you/);
    await expect(guesses.nth(2)).toHaveAttribute("aria-pressed", "true");
  });

  await test.step("home is taken in hand by H and tried in other keys", async () => {
    await page.keyboard.press("Escape");
    await page.keyboard.press("h");
    await expect(headingOf(page)).toHaveText("Home");
    const home = page.getByRole("banner").getByRole("button", { name: /major|minor/ });
    const before = (await home.textContent()) ?? "";
    await expect(guesses.first()).toHaveAttribute("aria-pressed", "true");
    await page.keyboard.press("o");
    await expect(home).not.toHaveText(before);
    await expect(selectedOf(page)).toContainText("Inked by you");
    await page.keyboard.press("Control+z");
    await expect(home).toHaveText(before);
  });

  await test.step("on a phone the next guess stands beside what is in hand", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await changesOf(page).nth(2).click();
    const inHand = page.getByRole("region", { name: "In hand" });
    const other = inHand.getByRole("button", { name: /^or / });
    const offered = ((await other.textContent()) ?? "").replace(/^or /, "");
    await other.click();
    await expect
      .poll(async () => (await inHand.locator("strong").textContent())?.startsWith(offered))
      .toBe(true);
    await expect(inHand.getByRole("button", { name: "Ink it" })).toHaveCount(0);
  });
});
