import { ActTrial, DRILLS } from "./acts/ActTrial";
import { tryByFingers } from "./acts/byFingers";
import { Hand } from "./acts/Hand";
import { countSounds } from "./acts/readings";
import { SongReplica } from "./acts/SongReplica";
import { prepare, putAllAway } from "./acts/standings";
import { addAndOpen, expect, leaveWalks, makeBook, test, waitForPencil, waitForSaved } from "./liftbook";

const SHORT_SONG = "tests/fixtures/quality/own-4.ogg";

/** All of them take five minutes; where time is short one in so many is done, which the test's name then says. */
const EVERY = Number(process.env.LIFTBOOK_ACTS_EVERY ?? 1);
const TRIED = DRILLS.filter((_, at) => at % EVERY === 0);
const WHICH =
  TRIED.length === DRILLS.length ? "every act has" : `${TRIED.length} of ${DRILLS.length} acts have`;

test(`${WHICH} the same effect by its key and by mouse, and the usual ones by fingers too`, async ({
  newcomer,
  browser,
  server,
}) => {
  // Some two hundred acts, each done twice and taken back twice.
  test.setTimeout(600_000);
  const { page, context } = await newcomer("Ambrose");
  // All lanes in view at once.
  await page.setViewportSize({ width: 1440, height: 1250 });
  await page.addInitScript(countSounds);
  await makeBook(page, "Both ways");
  await addAndOpen(page, SHORT_SONG);
  await waitForPencil(page);
  await expect(page.getByRole("region", { name: "Hearing" })).toHaveCount(0, { timeout: 120_000 });
  await page.reload();
  await waitForPencil(page);
  page.setDefaultTimeout(10_000);
  await prepare(new Hand(page));
  await waitForSaved(page);
  // Opened anew, so that undo cannot go back behind it.
  await page.reload();
  await waitForPencil(page);
  const replica = await SongReplica.open(page);
  await putAllAway(page);
  const trial = new ActTrial(page, replica);
  const faults: string[] = [];
  for (const each of TRIED) {
    try {
      await trial.both(each);
    } catch (thrown) {
      faults.push(`${each.name}: ${thrown instanceof Error ? thrown.message : thrown}`);
      const isRestored = await trial.restore(each.drill).then(
        () => true,
        () => false,
      );
      if (isRestored) continue;
      // Whatever came then would be read wrongly.
      faults.push(`${each.name}: was not taken back; what comes after it was not tried`);
      break;
    }
  }
  expect(faults).toEqual([]);

  await test.step("on a phone, by fingers", async () => {
    const songUrl = page.url();
    const storageState = await context.storageState();
    await page.close();
    const phone = await browser.newContext({
      ...{ baseURL: server.url, storageState, viewport: { width: 390, height: 844 } },
      ...{ hasTouch: true, isMobile: true, serviceWorkers: "block" },
    });
    await phone.addInitScript(leaveWalks);
    const held = await phone.newPage();
    await held.goto(songUrl);
    await waitForPencil(held);
    await tryByFingers(held, replica);
    await phone.close();
  });
  replica.close();
});
