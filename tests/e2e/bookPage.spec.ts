import { createHash } from "node:crypto";
import { readFile, writeFile } from "node:fs/promises";
import path from "node:path";
import type { LabelsFile } from "@/lib/contracts/labels";
import { encodeWav } from "@/lib/synth/encodeWav";
import { addAndOpen, expect, inviteInto, makeBook, test } from "./liftbook";

const TONE = path.resolve("tests/fixtures/audio/tone.flac");

/** A minute of a quiet tone: large enough to be seen on its way over a slow line. */
async function writeLongTone(file: string): Promise<void> {
  const rateHz = 44_100;
  const samples = Float32Array.from({ length: 60 * rateHz }, (_, at) => 0.1 * Math.sin(at / 20));
  await writeFile(file, encodeWav([samples, samples], rateHz));
}

test("an upload shows how fast it goes and leaves nothing when cancelled; songs are renamed and removed", async ({
  newcomer,
}, testInfo) => {
  const maker = await newcomer("Fenella");
  const { page, context } = maker;
  const bookUrl = await makeBook(page, "Comings and goings");

  await test.step("a slow upload shows its speed, and cancelled it leaves no song", async () => {
    const file = testInfo.outputPath("long-tone.wav");
    await writeLongTone(file);
    const line = await context.newCDPSession(page);
    await line.send("Network.enable");
    const slow = { offline: false, latency: 20, downloadThroughput: -1, uploadThroughput: 400_000 };
    await line.send("Network.emulateNetworkConditions", slow);
    await page.getByLabel("Recording to add").setInputFiles(file);
    const upload = page.getByRole("status", { name: "Upload of long-tone.wav" });
    await expect(upload).toContainText(/Sending, \d+ % · .+ of 11 MB · .+B\/s · \d+:\d\d left/);
    const other = await context.newPage();
    await other.goto(bookUrl);
    await expect(other.getByText("No songs yet")).toBeVisible();
    await expect(upload).toContainText("Sending");
    await upload.getByRole("button", { name: "Cancel" }).click();
    await expect(upload).toHaveCount(0);
    await line.send("Network.emulateNetworkConditions", { ...slow, latency: 0, uploadThroughput: -1 });
    await line.detach();
    await other.reload();
    await expect(other.getByText("No songs yet")).toBeVisible();
    await other.close();
  });

  await addAndOpen(page, TONE);
  const student = await newcomer("Magnus");
  await inviteInto(maker, student, bookUrl, "student");

  await test.step("whoever writes in the book renames a song; Escape leaves the name", async () => {
    await student.page.getByRole("button", { name: "Rename tone" }).click();
    await student.page.getByLabel("Title of the song").fill("Not so");
    await student.page.keyboard.press("Escape");
    await expect(student.page.getByRole("link", { name: "tone" })).toBeVisible();
    await student.page.getByRole("button", { name: "Rename tone" }).click();
    await student.page.getByLabel("Title of the song").fill("Two whistles");
    await student.page.keyboard.press("Enter");
    await expect(student.page.getByRole("link", { name: "Two whistles" })).toBeVisible();
    await page.goto(bookUrl);
    await expect(page.getByRole("link", { name: "Two whistles" })).toBeVisible();
  });

  await test.step("the maker takes the labels out as a file, of the kinds that were chosen; others may not", async () => {
    await expect(student.page.getByRole("button", { name: /labels/i })).toHaveCount(0);
    const dialog = page.getByRole("dialog", { name: "Take the labels" });
    const download = dialog.getByRole("button", { name: "Download the file" });
    const takeOut = async (name: string) => {
      const [file] = await Promise.all([page.waitForEvent("download"), download.click()]);
      expect(file.suggestedFilename()).toBe(name);
      await expect(dialog.getByRole("status")).toHaveText(/^Downloaded: \d+ labels?\./);
      return JSON.parse(await readFile(await file.path(), "utf8")) as LabelsFile;
    };
    const recordSha256 = createHash("sha256")
      .update(await readFile(TONE))
      .digest("hex");

    await expect(page.getByRole("status").filter({ hasText: /^Heard$/ })).toBeVisible({ timeout: 60_000 });
    await page.getByRole("button", { name: "Take the labels of Two whistles" }).click();
    await expect(dialog).toContainText("No sound goes with it, no titles and no names");
    for (const box of await dialog.getByRole("checkbox").all()) await expect(box).not.toBeChecked();
    await expect(download).toBeDisabled();
    await dialog.getByRole("checkbox", { name: "Heard notes" }).check();
    const { format, version, songs } = await takeOut("Two whistles, labels.json");
    expect([format, version]).toEqual(["liftbook-labels", 1]);
    expect(songs).toMatchObject([{ recordSha256, notesGoneOver: [] }]);
    await expect(dialog.getByRole("status")).toContainText("No notes are gone over so far");
    expect(Object.keys(songs[0]!.labels)).toEqual(["note"]);
    await page.keyboard.press("Escape");
    await expect(dialog).toHaveCount(0);
    await expect(page.getByRole("button", { name: "Take the labels of Two whistles" })).toBeFocused();

    await page.getByRole("button", { name: "Take the labels of all songs" }).click();
    await expect(download).toBeDisabled();
    await dialog.getByRole("checkbox", { name: "Tuning and beats" }).check();
    const book = await takeOut("Comings and goings, labels.json");
    expect(book.songs).toMatchObject([{ recordSha256, labels: { tuning: [{ act: "open" }] } }]);
    expect(Object.keys(book.songs[0]!.labels).sort()).toEqual(["grid", "tuning"]);
    await page.keyboard.press("Escape");
  });

  await test.step("only the book's maker and who added a song may remove it, after being asked", async () => {
    await expect(student.page.getByRole("button", { name: /^Remove / })).toHaveCount(0);
    await student.page.getByRole("link", { name: "Two whistles" }).click();
    await expect(student.page.getByRole("region", { name: "Record", exact: true })).toBeVisible();
    await page.getByRole("button", { name: "Remove Two whistles" }).click();
    const dialog = page.getByRole("dialog", { name: "Remove this song" });
    await expect(dialog).toContainText("Nothing brings them back");
    await dialog.getByRole("button", { name: "Keep it" }).click();
    await expect(page.getByRole("link", { name: "Two whistles" })).toBeVisible();
    await page.getByRole("button", { name: "Remove Two whistles" }).click();
    await dialog.getByRole("button", { name: "Remove it for good" }).click();
    await expect(page.getByText("No songs yet")).toBeVisible();
    await expect(
      student.page.getByText("This song was removed, or you are no longer in its book."),
    ).toBeVisible();
    await student.page.reload();
    await expect(student.page.getByText(/nothing at this address/i)).toBeVisible();
  });
});
