import { readFile } from "node:fs/promises";
import path from "node:path";
import { changesOf, expect, makeBook, signUp, test } from "./liftbook";
import { newDataFolder, removeDataFolder, startServer } from "./server";

const audio = (name: string) => path.resolve("tests/fixtures/audio", name);
/** How long the tones of tests/fixtures/audio sound (its README). */
const TONE_SEC = 1.2;

/** Amplitude of a sine in the second from 0.1 s on of one channel of a 16-bit stereo WAV (44 header bytes). */
function amplitudeAt(wav: Buffer, channel: 0 | 1, frequencyHz: number): number {
  const rateHz = wav.readUInt32LE(24);
  const first = Math.round(0.1 * rateHz);
  let real = 0;
  let imaginary = 0;
  for (let frame = first; frame < first + rateHz; frame += 1) {
    const sample = wav.readInt16LE(44 + 4 * frame + 2 * channel) / 32_768;
    const angle = (2 * Math.PI * frequencyHz * frame) / rateHz;
    real += sample * Math.cos(angle);
    imaginary -= sample * Math.sin(angle);
  }
  return (2 * Math.hypot(real, imaginary)) / rateHz;
}

test("where the server has no ffmpeg, the browser reads the rarer kinds before sending, or says that it cannot", async ({
  browser,
}) => {
  test.setTimeout(300_000);
  const folder = await newDataFolder();
  const server = await startServer(folder, { LIFTBOOK_FFMPEG: "off" });
  try {
    const context = await browser.newContext({ baseURL: server.url });
    const page = await context.newPage();
    await signUp(page, { name: "Isolde", email: "isolde@example.com", password: "eight pedals" });
    await makeBook(page, "Odd files");
    const chooser = page.getByLabel("Recording to add");

    await test.step("WebM with Opus comes in as what the browser heard in it", async () => {
      await chooser.setInputFiles(audio("tone.webm"));
      const song = page.getByRole("link", { name: "tone" });
      await expect(song).toBeVisible();
      await song.click();
      await page.waitForURL("**/songs/*");
      const address = new URL(page.url()).pathname.replace("/songs/", "/api/songs/");
      const heard = await (await context.request.get(address)).json();
      expect(heard.durationSec).toBeGreaterThan(TONE_SEC - 0.05);
      expect(heard.durationSec).toBeLessThan(TONE_SEC + 0.05);
      expect(heard.channelCount).toBe(2);
      const wav = await (await context.request.get(`${address}/record`)).body();
      expect(wav.subarray(0, 4).toString("latin1")).toBe("RIFF");
      expect(Math.abs(amplitudeAt(wav, 0, 440) - 0.5)).toBeLessThan(0.05);
      expect(Math.abs(amplitudeAt(wav, 1, 660) - 0.25)).toBeLessThan(0.025);
      expect(amplitudeAt(wav, 0, 660)).toBeLessThan(0.05);
      await expect(page.getByRole("region", { name: "Record", exact: true })).toBeVisible();
      await expect(changesOf(page).first().or(page.getByText("No changes yet"))).toBeVisible();
      await page.goBack();
    });

    await test.step("M4A comes in where the browser knows AAC, else is refused in words", async () => {
      const knowsAac = await page.evaluate(
        () => new Audio().canPlayType('audio/mp4; codecs="mp4a.40.2"') !== "",
      );
      await chooser.setInputFiles({
        name: "fast.m4a",
        mimeType: "audio/mp4",
        buffer: await readFile(audio("tone-faststart.m4a")),
      });
      if (knowsAac) await expect(page.getByRole("link", { name: "fast" })).toBeVisible();
      else
        await expect(page.getByRole("alert").filter({ hasText: "fast.m4a" })).toContainText(
          "could not either",
        );
    });

    await test.step("what neither can read is refused in words, and nothing is kept", async () => {
      await chooser.setInputFiles({
        name: "letter.m4a",
        mimeType: "audio/mp4",
        buffer: Buffer.from("Dear band, rehearsal is on Thursday.\n".repeat(50)),
      });
      const alert = page.getByRole("alert").filter({ hasText: "letter.m4a" });
      await expect(alert).toContainText("your browser could not either");
      await expect(alert).toContainText("Nothing was kept");
      await page.reload();
      await expect(page.getByRole("link", { name: "tone" })).toBeVisible();
      await expect(page.getByRole("link", { name: "letter" })).toHaveCount(0);
    });
    await context.close();
  } finally {
    expect(await server.stop()).toBe(0);
    await removeDataFolder(folder);
  }
});
