import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import {
  addAndOpen,
  changesOf,
  expect,
  inviteInto,
  makeBook,
  test,
  testRecording,
  waitForPencil,
} from "./liftbook";

test("outsiders see nothing, listeners only listen, and bad files are refused in words", async ({
  newcomer,
  browser,
  server,
}) => {
  const maker = await newcomer("Ambrose");
  const bookUrl = await makeBook(maker.page, "Behind the door");
  const songUrl = await addAndOpen(maker.page, testRecording());
  await waitForPencil(maker.page);

  await test.step("someone not signed in is asked to sign in", async () => {
    const context = await browser.newContext({ baseURL: server.url });
    const page = await context.newPage();
    await page.goto(songUrl);
    await expect(page).toHaveURL(/\/sign-in\?next=/);
    const record = await context.request.get(
      `${new URL(songUrl).pathname.replace("/songs/", "/api/songs/")}/record`,
    );
    expect(record.status()).toBe(401);
    await context.close();
  });

  await test.step("an outsider gets the same answer for a book as for none", async () => {
    const outsider = await newcomer("Sorrel");
    const songPath = new URL(songUrl).pathname.replace("/songs/", "/api/songs/");
    const nowhere = songPath.replace(/[^/]+$/, "0000000000000000000000");
    for (const [real, none] of [
      [new URL(bookUrl).pathname, "/books/0000000000000000000000"],
      [`/api${new URL(bookUrl).pathname}`, "/api/books/0000000000000000000000"],
      [songPath, nowhere],
      [`${songPath}/record`, `${nowhere}/record`],
      [`${songPath}/peaks`, `${nowhere}/peaks`],
    ] as const) {
      const [first, second] = await Promise.all([
        outsider.context.request.get(real),
        outsider.context.request.get(none),
      ]);
      expect(first.status(), real).toBe(404);
      expect(second.status(), none).toBe(404);
      if (real.startsWith("/api")) expect(await first.text()).toBe(await second.text());
    }
  });

  await test.step("a member plays the record in ranges", async () => {
    const bytes = await readFile(testRecording());
    const part = await maker.context.request.get(
      `${new URL(songUrl).pathname.replace("/songs/", "/api/songs/")}/record`,
      { headers: { range: "bytes=100-199" } },
    );
    expect(part.status()).toBe(206);
    expect(part.headers()["content-range"]).toBe(`bytes 100-199/${bytes.length}`);
    expect(await part.body()).toEqual(bytes.subarray(100, 200));
  });

  await test.step("a listener sees the song and can write nothing", async () => {
    const listener = await newcomer("Clement");
    await inviteInto(maker, listener, bookUrl, "listener");
    await listener.page.goto(songUrl);
    await waitForPencil(listener.page);
    await changesOf(listener.page).first().click();
    await listener.page.keyboard.press("Enter");
    await expect(changesOf(listener.page).first()).toHaveAccessibleName(/in pencil/);
    await expect(listener.page.getByRole("button", { name: "Ink it" })).toHaveCount(0);
  });

  await test.step("a file that is no audio, an empty one and one cut short are refused in words", async () => {
    const folder = await mkdtemp(path.join(tmpdir(), "liftbook-files-"));
    const whole = await readFile(testRecording());
    const files = [
      {
        name: "letter.mp3",
        bytes: Buffer.from("Dear band, rehearsal is on Thursday.\n".repeat(200)),
        words: /holds no sound|named as/,
      },
      { name: "nothing.wav", bytes: Buffer.alloc(0), words: /is empty/ },
      {
        name: `short${path.extname(testRecording())}`,
        bytes: whole.subarray(0, whole.length >> 1),
        words: /cut short/,
      },
    ];
    await maker.page.goto(bookUrl);
    for (const { name, bytes, words } of files) {
      const file = path.join(folder, name);
      await writeFile(file, bytes);
      await maker.page.getByLabel("Recording to add").setInputFiles(file);
      const alert = maker.page.getByRole("alert").filter({ hasText: name });
      await expect(alert).toContainText(words);
      await expect(alert).toContainText("Nothing was kept");
    }
    await maker.page.reload();
    await expect(maker.page.getByRole("link", { name: /letter|nothing|short/ })).toHaveCount(0);
    await rm(folder, { recursive: true });
  });
});
