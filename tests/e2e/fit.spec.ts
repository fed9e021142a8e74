import type { Page } from "@playwright/test";
import {
  addAndOpen,
  changesOf,
  expect,
  makeBook,
  selectedOf,
  test,
  testRecording,
  waitForPencil,
} from "./liftbook";

const against = (page: Page) => selectedOf(page).getByRole("region", { name: "Against the record" });
const check = (page: Page) => page.getByRole("region", { name: "Check of the part" });
/** A number and a sentence with that of a near miss. */
const SENTENCE = /0\.\d\d(Fits|May fit|Does not fit); .+ reads 0\.\d\d/;

test("changes and events are held against the record, and a whole part is checked, by keys alone", async ({
  newcomer,
}) => {
  const { page } = await newcomer("Fenna");
  await makeBook(page, "Held against");
  await addAndOpen(page, testRecording());
  await waitForPencil(page);

  await test.step("a change tells how it reads, beside other chords", async () => {
    await changesOf(page).nth(1).click();
    await expect(against(page)).toContainText(SENTENCE, { timeout: 30_000 });
    await expect(against(page).getByRole("listitem")).toHaveCount(3);
    await expect(against(page).getByRole("button", { name: /^Take it: / })).toHaveCount(3);
  });

  await test.step("an event of the part tells so too, with near misses to hear and to take", async () => {
    await page.keyboard.press("p");
    // Nobody plays that high.
    await page.keyboard.type("24");
    await expect(against(page)).toContainText(SENTENCE, { timeout: 30_000 });
    await expect(against(page)).toContainText("Does not fit");
    await against(page)
      .getByRole("button", { name: /^Take it: / })
      .first()
      .click();
    await expect(page.getByRole("region", { name: "Where it lies" }).getByLabel("Notes")).not.toHaveValue("");
  });

  await test.step("a check runs over the part, marks it, and its mark goes stale with the event", async () => {
    await page.keyboard.press("Escape");
    await page.keyboard.press("!");
    await expect(check(page)).toContainText("0 of 1 events show no fault.", { timeout: 30_000 });
    const marks = check(page).getByRole("listitem");
    await expect(marks).toHaveCount(1);
    await page.keyboard.press(";");
    await expect(marks.getByRole("button")).toHaveAttribute("aria-current", "true");
    await expect(page.getByRole("region", { name: "Part" }).locator("[data-check]")).toHaveCount(1);
    await page.keyboard.type("1");
    await expect(marks).toContainText("Changed since");
    await page.keyboard.press("!");
    await expect(check(page)).not.toContainText("Changed since");
  });
});
