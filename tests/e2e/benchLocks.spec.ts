import { addAndOpen, expect, makeBook, selectedOf, test, testRecording } from "./liftbook";

test("places are locked to strings, frets and pedals by key and by touch, and tell what they cost", async ({
  newcomer,
}) => {
  const { page } = await newcomer("Idelette");
  await makeBook(page, "Locks");
  await addAndOpen(page, testRecording());
  // Nothing of the hearing is wanted here, and it would take the time of all else.
  await page.getByRole("region", { name: "Hearing" }).getByRole("button", { name: "Cancel" }).click();
  const bench = page.getByRole("region", { name: "Where it lies" });
  const names = () => bench.locator("[data-place] strong").allTextContents();
  const frets = async () => (await names()).map((name) => Number(/fret (\d+)/.exec(name)?.[1]));
  const tag = (words: string) => bench.getByRole("button", { name: `Let off the lock: ${words}` });

  await test.step("an event of the part is typed, and its places stand below", async () => {
    const part = page.getByRole("region", { name: "Part" });
    await part.click({ position: { x: 300, y: 60 } });
    await page.keyboard.press("3");
    await expect(selectedOf(page)).toContainText(/fret/i);
    await expect.poll(async () => (await names()).length).toBeGreaterThan(4);
    expect(new Set(await frets()).size).toBeGreaterThan(2);
  });

  await test.step("a place unfolds what makes it easy or hard", async () => {
    const why = bench.getByRole("button", { name: /^why / }).first();
    await why.click();
    const table = bench.getByRole("table", { name: "What makes it hard, and what speaks for it" });
    await expect(table.getByRole("row", { name: /^in all/ })).toBeVisible();
    expect(await table.getByRole("row").count()).toBeGreaterThan(1);
    await bench.getByRole("button", { name: /^less of / }).click();
    await expect(table).toHaveCount(0);
    await page.keyboard.press("Escape");
  });

  await test.step("keys lock the string and the pedals, and let them off", async () => {
    const part = page.getByRole("region", { name: "Part" });
    await part.click({ position: { x: 300, y: 60 } });
    await expect.poll(async () => (await names()).length).toBeGreaterThan(4);
    await page.keyboard.press("*");
    const string = /on string (\d+)/.exec((await bench.getByText(/ on string \d+/).textContent()) ?? "")?.[1];
    await expect
      .poll(async () => [...new Set((await names()).map((name) => name.split(" ")[0]))])
      .toEqual([string]);
    await page.keyboard.press("&");
    await expect(tag("pedals up")).toBeVisible();
    await expect
      .poll(async () => (await names()).some((name) => /[ABC]/.test(name.split(/fret \d+/)[1] ?? "")))
      .toBe(false);
    await page.keyboard.press("*");
    await expect
      .poll(async () => new Set((await names()).map((name) => name.split(" ")[0])).size)
      .toBeGreaterThan(1);
    await page.keyboard.press("&");
    await page.keyboard.press("&");
    await expect(tag("pedals down")).toHaveCount(0);
  });

  await test.step("the panel bars the frets and strings, says what leaves nothing, and leads back", async () => {
    await page.keyboard.press("%");
    const panel = bench.getByRole("group", { name: "Locks" });
    await panel.getByLabel("From fret").fill("8");
    await expect.poll(async () => Math.min(...(await frets()))).toBeGreaterThanOrEqual(8);
    await panel.getByRole("button", { name: "String 10" }).click();
    await expect(tag("not string 10")).toBeVisible();
    await panel.getByLabel("To fret").fill("8");
    await panel.getByLabel("From fret").fill("8");
    for (const number of [1, 2, 3, 4, 5, 6, 7, 8])
      await panel.getByRole("button", { name: `String ${number}`, exact: true }).click();
    await expect(bench.getByText(/^Locked: the bar at fret 8|^Locked: string 9 alone/)).toBeVisible();
    await panel.getByRole("button", { name: "Let all off" }).click();
    await expect.poll(async () => (await names()).length).toBeGreaterThan(4);
    await page.keyboard.press("Escape");
    await expect(panel).toHaveCount(0);
  });
});
