import type { Page } from "@playwright/test";
import {
  addAndOpen,
  dragOverRecord,
  expect,
  headingOf,
  makeBook,
  selectedOf,
  test,
  testRecording,
  waitForPencil,
} from "./liftbook";

/** A player who plays exactly what is heard: the microphone hears what the page sends to the ears. */
function hearOneself(): void {
  const heard: { by?: MediaStreamAudioDestinationNode } = {};
  const connect = AudioNode.prototype.connect as (
    this: AudioNode,
    to: AudioNode,
    ...rest: number[]
  ) => AudioNode;
  Object.assign(AudioNode.prototype, {
    connect(this: AudioNode, to: AudioNode, ...rest: number[]) {
      const { context } = this;
      if (to instanceof AudioDestinationNode && context instanceof AudioContext) {
        heard.by ??= new MediaStreamAudioDestinationNode(context);
        connect.call(this, heard.by);
      }
      return connect.call(this, to, ...rest);
    },
  });
  navigator.mediaDevices.getUserMedia = async () => {
    if (!heard.by) throw new DOMException("", "NotFoundError");
    return heard.by.stream.clone();
  };
}

interface Listed {
  id: string;
  startSec: number;
  leadSec: number;
  endSec: number;
  isShared: boolean;
}

const rowsOf = (page: Page) =>
  page.getByRole("region", { name: "Takes" }).getByRole("button", { name: /^Take by/ });
const barOf = (page: Page) => page.getByRole("region", { name: "Recording a take" });
const listed = async (page: Page): Promise<Listed[]> =>
  (await page.request.get(`${page.url().replace("/songs/", "/api/songs/")}/takes`)).json();

/**
 * How far a take lies from the record that it was played along with, in seconds: where both are most alike, by their
 * correlation over a second and a half, up to 80 ms apart.
 */
async function offBy(page: Page, { id, startSec, leadSec }: Listed): Promise<number> {
  return page.evaluate(
    async ({ song, takeId, fromSec, takeSec }) => {
      const rateHz = 24_000;
      const sound = async (url: string) => {
        const bytes = await (await fetch(url)).arrayBuffer();
        const decoded = await new OfflineAudioContext(2, 1, rateHz).decodeAudioData(bytes);
        const [left, right = left] = Array.from({ length: decoded.numberOfChannels }, (_, at) =>
          decoded.getChannelData(at),
        );
        return left!.map((value, at) => value + right![at]!);
      };
      const [record, take] = await Promise.all([
        sound(`${song}/record`),
        sound(`${song}/takes/${takeId}/sound`),
      ]);
      const length = 1.5 * rateHz;
      const most = 0.08 * rateHz;
      const at = Math.round(takeSec * rateHz);
      let best = { lag: 0, alike: Number.NEGATIVE_INFINITY };
      for (let lag = -most; lag <= most; lag++) {
        const from = Math.round(fromSec * rateHz) - lag;
        let alike = 0;
        for (let i = 0; i < length; i++) alike += (take[at + i] ?? 0) * (record[from + i] ?? 0);
        if (alike > best.alike) best = { lag, alike };
      }
      return best.lag / rateHz;
    },
    {
      song: new URL(page.url()).pathname.replace("/songs/", "/api/songs/"),
      takeId: id,
      fromSec: startSec,
      takeSec: leadSec,
    },
  );
}

test("takes are recorded along with the record, heard beside it, shared and removed", async ({
  newcomer,
}) => {
  const { page } = await newcomer("Rosalind");
  await page.addInitScript(hearOneself);
  await makeBook(page, "Takes");
  await addAndOpen(page, testRecording());
  await waitForPencil(page);
  const record = page.getByRole("button", { name: "Record a take" });

  await test.step("the device's delay is measured by clicks", async () => {
    await page.keyboard.press("F8");
    const panel = page.getByRole("region", { name: "Listening" });
    await panel.getByRole("button", { name: "Measure it" }).click();
    await expect(panel).toContainText(/Measured: \d+ ms, by \d of 6 clicks/);
    await page.keyboard.press("F8");
  });

  await test.step("a stretch is recorded by its key along with the record, and lies on it to a few milliseconds", async () => {
    await dragOverRecord(page, 0.25, 0.5);
    await page.keyboard.press("F10");
    await expect(barOf(page)).toContainText("Recording", { timeout: 60_000 });
    await expect(barOf(page)).toContainText("Only you hear it until you share it.");
    await expect(rowsOf(page)).toHaveCount(1);
    await expect(headingOf(page)).toHaveText("Take");
    await expect(selectedOf(page)).toContainText("Private: only you hear it");
    await expect.poll(() => listed(page)).toHaveLength(1);
    const [take] = await listed(page);
    expect(Math.abs(await offBy(page, take!))).toBeLessThan(0.005);
  });

  await test.step("another is recorded by the button and stopped; one that Esc drops is not kept", async () => {
    await record.click();
    await expect(barOf(page)).toContainText("Counting in");
    await page.keyboard.press("Escape");
    await expect(page.getByText("The take was dropped: nothing of it is kept.")).toBeVisible();
    await record.click();
    await expect(barOf(page)).toContainText("Recording");
    await page.waitForTimeout(900);
    await page.getByRole("button", { name: "Stop take" }).click();
    await expect(rowsOf(page)).toHaveCount(2);
    await expect.poll(() => listed(page)).toHaveLength(2);
    const [short, whole] = await listed(page);
    expect(short!.endSec).toBeLessThan(whole!.endSec - 0.2);
  });

  await test.step("takes are walked, heard and looped by keys and by hand", async () => {
    const chosen = () =>
      rowsOf(page).evaluateAll((rows) => rows.map((row) => row.getAttribute("aria-pressed")));
    expect(await chosen()).toEqual(["true", "false"]);
    await page.keyboard.press("ArrowLeft");
    await expect.poll(chosen).toEqual(["false", "true"]);
    await page.keyboard.press("ArrowRight");
    await expect.poll(chosen).toEqual(["true", "false"]);
    await rowsOf(page).nth(1).click();
    await expect.poll(chosen).toEqual(["false", "true"]);
    await rowsOf(page).nth(0).click();
    await page.locator("body").evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    for (const [key, name] of [
      ["Enter", "both"],
      ["s", "take"],
      ["r", "record"],
    ] as const) {
      const way = selectedOf(page).getByRole("button", { name, exact: true });
      await page.keyboard.press(key);
      await expect(way).toHaveAttribute("aria-pressed", "true");
      await page.keyboard.press(key);
      await expect(way).toHaveAttribute("aria-pressed", "false");
      await way.click();
      await expect(way).toHaveAttribute("aria-pressed", "true");
      await selectedOf(page).getByRole("button", { name: "Stop", exact: true }).click();
      await page.locator("body").evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    }
    const loop = selectedOf(page).getByRole("button", { name: "Loop it" });
    await page.keyboard.press("o");
    await expect(loop).toHaveAttribute("aria-pressed", "true");
    await loop.click();
    await expect(loop).toHaveAttribute("aria-pressed", "false");
  });

  await test.step("a take is shared, kept private again and removed, by keys and by hand", async () => {
    const shared = async () => (await listed(page)).filter(({ isShared }) => isShared).length;
    await selectedOf(page).getByRole("button", { name: "Share it with the book" }).click();
    await expect(selectedOf(page)).toContainText("Shared: everyone in Takes hears it");
    expect(await shared()).toBe(1);
    await page.keyboard.press("Shift+S");
    await expect(selectedOf(page)).toContainText("Private: only you hear it");
    expect(await shared()).toBe(0);
    await page.keyboard.press("Backspace");
    await page.getByRole("dialog").getByRole("button", { name: "Remove it for good" }).click();
    await expect(rowsOf(page)).toHaveCount(1);
    await rowsOf(page).first().click();
    await selectedOf(page).getByRole("button", { name: "Remove", exact: true }).click();
    await page.getByRole("dialog").getByRole("button", { name: "Remove it for good" }).click();
    await expect(page.getByRole("region", { name: "Takes" })).toHaveCount(0);
    expect(await listed(page)).toEqual([]);
  });
});
