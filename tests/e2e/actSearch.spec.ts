import {
  addAndOpen,
  changesOf,
  expect,
  headingOf,
  makeBook,
  test,
  testRecording,
  waitForPencil,
} from "./liftbook";

test.use({ hasWalked: false });

test("acts are found by words and done by Enter, and the first walk is left for good", async ({
  newcomer,
}) => {
  const { page } = await newcomer("Isolde");
  await makeBook(page, "Found by words");
  const songUrl = await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const walk = page.getByRole("region", { name: /\d of 5$/ });
  const search = page.getByRole("dialog", { name: "Do something" });
  const acts = search.getByRole("option");

  await test.step("the walk goes by keys, shows what it is about, and does not come again", async () => {
    await expect(walk).toHaveAccessibleName("Listen 1 of 5");
    await walk.getByRole("button", { name: "Next" }).press("Enter");
    await expect(walk).toHaveAccessibleName("Pencil and ink 2 of 5");
    await expect(page.locator("[data-walk]")).toHaveAccessibleName("Changes");
    await walk.getByRole("button", { name: "Leave the walk" }).click();
    await expect(walk).toHaveCount(0);
    await page.goto(songUrl);
    await waitForPencil(page);
    await expect(walk).toHaveCount(0);
  });

  await test.step("what is found is done by its key, with the focus back on the page", async () => {
    await changesOf(page).first().click();
    await expect(headingOf(page)).toHaveText("Change");
    await page.keyboard.press("Control+k");
    await expect(search).toBeVisible();
    await page.keyboard.type("change aft");
    await expect(acts.first()).toHaveAccessibleName(/^the change after/);
    await page.keyboard.press("Enter");
    await expect(search).toHaveCount(0);
    await expect(changesOf(page).nth(1)).toHaveAttribute("aria-pressed", "true");
    await page.keyboard.press("Control+k");
    await expect(search).toBeVisible();
    await page.keyboard.type("ink it changes");
    await page.keyboard.press("Enter");
    await expect(changesOf(page).nth(1)).toHaveAccessibleName(/inked by/);
  });

  await test.step("what cannot be done yet says what comes first; sheets without a key and other pages are found too", async () => {
    await page.keyboard.press("Control+k");
    await expect(search).toBeVisible();
    await page.keyboard.type("bass octave up");
    await expect(acts.first()).toHaveAccessibleName(/Select a note of the bass line first/);
    await page.keyboard.press("Enter");
    await expect(page.getByText(/Select a note of the bass line first. Then Alt Shift ↑/)).toBeVisible();
    await page.getByRole("button", { name: "Do something" }).click();
    await page.keyboard.type("nothing of the kind");
    await expect(search.getByText("Nothing is called that.")).toBeVisible();
    await page.keyboard.press("Escape");
    await expect(search).toHaveCount(0);
    await page.keyboard.press("Control+k");
    await expect(search).toBeVisible();
    await page.keyboard.type("all books");
    await page.keyboard.press("Enter");
    await page.waitForURL("**/books");
  });

  await test.step("other pages have a short one", async () => {
    // The address is there before the page is that answers keys.
    await expect(page.getByRole("heading", { name: "Books", level: 1, exact: true })).toBeVisible();
    await page.keyboard.press("Control+k");
    await expect(search).toBeVisible();
    await page.keyboard.type("found by words");
    await expect(acts.first()).toHaveAccessibleName(/^open Found by words/);
    await page.keyboard.press("Enter");
    await page.waitForURL("**/books/*");
  });
});
