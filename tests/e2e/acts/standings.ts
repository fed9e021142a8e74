import { expect, type Page } from "@playwright/test";
import { changesOf, headingOf, selectedOf, stepsOf } from "../liftbook";
import type { Hand } from "./Hand";

/** What is in hand before an act is done, each reached by the shortest way. */
export type Standing = keyof typeof WAYS;

/** A change that begins in view, with one before and one after it. */
const CHANGE = 1;

async function press(page: Page, ...keys: string[]): Promise<void> {
  for (const key of keys) await page.keyboard.press(key);
}

async function headed(page: Page, heading: string | RegExp): Promise<void> {
  await expect(headingOf(page)).toHaveText(heading);
}

/** Asks about what is selected, and has the question in hand. */
async function ask(page: Page): Promise<void> {
  await press(page, "Shift+Q");
  await expect(page.getByLabel("What do you want to know?")).toBeFocused();
  await page.keyboard.type("Pedals or slide?");
  await press(page, "Enter");
  await headed(page, "Question");
}

const WAYS = {
  nothing: async () => {},
  change: async (hand: Hand) => {
    await hand.change(CHANGE);
    await headed(hand.page, "Change");
  },
  inkedChange: async (hand: Hand) => {
    await WAYS.change(hand);
    await press(hand.page, "Enter");
    await expect(changesOf(hand.page).nth(CHANGE)).toHaveAccessibleName(/inked/);
  },
  takenBack: async (hand: Hand) => {
    await WAYS.inkedChange(hand);
    await press(hand.page, "Control+z");
    await expect(changesOf(hand.page).nth(CHANGE)).toHaveAccessibleName(/in pencil/);
  },
  /** With the playhead two beats within it. */
  withinChange: async (hand: Hand) => {
    await WAYS.change(hand);
    await press(hand.page, "Home", "Shift+ArrowRight", "Shift+ArrowRight");
  },
  both: async ({ page }: Hand) => press(page, "y"),
  bass: async (hand: Hand) => {
    await WAYS.change(hand);
    await press(hand.page, "ArrowDown");
    await headed(hand.page, "Bass note");
  },
  note: async (hand: Hand) => {
    await WAYS.bass(hand);
    await press(hand.page, "ArrowDown", "ArrowRight");
    await headed(hand.page, "Heard note");
  },
  /** A heard note that another is picked with. */
  pair: async (hand: Hand) => {
    await WAYS.note(hand);
    const together = selectedOf(hand.page).getByRole("button", { name: "Hear them together alone" });
    for (let step = 0; step < 20 && !(await together.isVisible()); step += 1)
      await press(hand.page, "ArrowRight");
    await expect(together).toBeVisible();
  },
  beat: async ({ page }: Hand) => {
    await press(page, "Shift+ArrowRight", "Shift+ArrowRight", "x", "ArrowRight");
    await headed(page, "Beat");
  },
  beatPlaying: async (hand: Hand) => {
    await WAYS.beat(hand);
    await press(hand.page, "Space");
    await expect(hand.region("Transport").getByRole("button", { name: "Pause" })).toBeVisible();
  },
  tapping: async (hand: Hand) => {
    await WAYS.beatPlaying(hand);
    await press(hand.page, "t");
    await hand.page.waitForTimeout(200);
    await press(hand.page, "t");
  },
  tapped: async (hand: Hand) => {
    await WAYS.beatPlaying(hand);
    for (let tap = 0; tap < 5; tap += 1) {
      await press(hand.page, "t");
      await hand.page.waitForTimeout(280);
    }
    await press(hand.page, "Space");
  },
  span: async ({ page }: Hand) => {
    await press(page, ...Array(12).fill("Alt+Shift+ArrowRight"));
    await headed(page, "Selection");
  },
  beatInFreeTime: async (hand: Hand) => {
    await WAYS.span(hand);
    await press(hand.page, "f", "x");
    await headed(hand.page, "Beat");
  },
  home: async ({ page }: Hand) => {
    await press(page, "h");
    await headed(page, "Home");
  },
  /** A home that begins within the song, after the first. */
  homeWithin: async (hand: Hand) => {
    await hand.change(CHANGE + 1);
    await press(hand.page, "Shift+H");
    await headed(hand.page, "Home");
  },
  section: async ({ page }: Hand) => {
    await page.locator("[data-section]").nth(1).click();
    await headed(page, "Section");
  },
  study: async (hand: Hand) => {
    await hand.passage(0);
    await headed(hand.page, "Passage 1");
  },
  secondStudy: async (hand: Hand) => {
    await hand.passage(1);
    await headed(hand.page, "Passage 2");
  },
  question: async (hand: Hand) => {
    await WAYS.change(hand);
    await ask(hand.page);
  },
  /** With one before it. */
  twoQuestions: async (hand: Hand) => {
    await WAYS.question(hand);
    await hand.change(CHANGE + 1);
    await ask(hand.page);
  },
  firstOfTwo: async (hand: Hand) => {
    await WAYS.twoQuestions(hand);
    await press(hand.page, "ArrowLeft");
    await expect(hand.page.locator("[data-question]").nth(0)).toHaveAttribute("aria-pressed", "true");
  },
  caret: async ({ page }: Hand) => press(page, "p", "ArrowDown", "ArrowRight"),
  /** The first event of the part. */
  event: async ({ page }: Hand) => {
    await press(page, "p", "ArrowRight", "ArrowRight", "ArrowRight");
    await headed(page, "Event");
  },
  secondEvent: async (hand: Hand) => {
    await WAYS.event(hand);
    await press(hand.page, "ArrowRight");
  },
  thirdEvent: async (hand: Hand) => {
    await WAYS.secondEvent(hand);
    await press(hand.page, "ArrowRight");
  },
  /** Two beats long. */
  longEvent: async (hand: Hand) => {
    await WAYS.thirdEvent(hand);
    await press(hand.page, "}");
  },
  highEvent: async (hand: Hand) => {
    await WAYS.event(hand);
    await press(hand.page, "Alt+Shift+ArrowUp");
  },
  tried: async (hand: Hand) => {
    await WAYS.event(hand);
    await hand.page.getByText("ease of reach").first().waitFor();
    await press(hand.page, "n");
    await expect(hand.region("Hear it")).toContainText("trying");
  },
  placed: async (hand: Hand) => {
    await WAYS.event(hand);
    await hand.page.getByText("ease of reach").first().waitFor();
  },
  events: async ({ page }: Hand) => {
    await press(page, "Control+a");
    await headed(page, /events/);
  },
  longEvents: async (hand: Hand) => {
    await WAYS.events(hand);
    await press(hand.page, "}");
  },
  highEvents: async (hand: Hand) => {
    await WAYS.events(hand);
    await press(hand.page, "Alt+Shift+ArrowUp");
  },
  /** The steel's notes of a stretch, written into the part in pencil. */
  pencilled: async (hand: Hand) => {
    await WAYS.span(hand);
    await press(hand.page, "w");
    await expect(hand.page.getByText(/written in pencil/)).toBeVisible();
    await press(hand.page, "Control+a");
    await headed(hand.page, /events/);
  },
  oneChosen: async (hand: Hand) => {
    await WAYS.event(hand);
    await press(hand.page, "Shift+ArrowUp");
    await headed(hand.page, /event/);
  },
  copied: async (hand: Hand) => {
    await WAYS.events(hand);
    await press(hand.page, "Control+c");
    await expect(hand.page.getByText(/copied/)).toBeVisible();
    await press(hand.page, "Escape", "ArrowRight", "ArrowRight", "ArrowRight", "ArrowRight");
  },
  /** With changes covered for oneself, and a guess typed. */
  guessing: async (hand: Hand) => {
    const { page } = hand;
    const mine = page.getByRole("group", { name: "Covered for me" }).getByRole("button", { name: "changes" });
    if ((await mine.getAttribute("aria-pressed")) !== "true") await mine.click();
    await press(page, "F4");
    await expect(hand.region("Guess").getByLabel("Your guess")).toBeFocused();
    await page.keyboard.type("4");
  },
  checked: async ({ page }: Hand) => {
    await press(page, "!");
    await expect(page.getByRole("region", { name: "Check of the part" }).getByRole("status")).toHaveText(
      /of \d+ events show no fault/,
    );
  },
} as const;

export async function stand(hand: Hand, at: Standing): Promise<void> {
  await WAYS[at](hand);
}

/** As the page was at first: nothing selected, open, sounding or listened to otherwise, and the playhead at the start. */
export async function putAllAway(page: Page): Promise<void> {
  await press(page, "Escape", "Escape", "Escape");
  const left = await page.evaluate(() => {
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    const click = (selector: string) => document.querySelector<HTMLElement>(selector)?.click();
    const named = (name: string, within: string) =>
      [...document.querySelectorAll<HTMLElement>(`[aria-label="${within}"] button`)].find(
        (each) => (each.ariaLabel ?? each.textContent?.trim()) === name,
      );
    const isOn = (button: HTMLElement | undefined) => button?.ariaPressed === "true";
    click('[aria-label="Transport"] [aria-label="Pause"]');
    if (isOn(named("Loop it", "Transport"))) named("Once", "Transport")?.click();
    for (const name of ["looped", "Chords along"])
      if (isOn(named(name, "Hear it"))) named(name, "Hear it")?.click();
    click('[aria-label="Hear it"] button[aria-pressed="true"]:not([aria-label]):is(:not([class*="toggle"]))');
    if (!isOn(named("record", "Hear it"))) named("record", "Hear it")?.click();
    for (const panel of ["List of heard notes", "Check of the part", "Guess"]) named("Close", panel)?.click();
    named("Whole song", "Passage")?.click();
    named("Drop", "Changes in a run")?.click();
    document.querySelectorAll<HTMLElement>('[aria-label^="Let off the lock"]').forEach((tag) => {
      tag.click();
    });
    const title = document.querySelector<HTMLElement>('[aria-label="Transport"] [title^="Listening"]')?.title;
    return {
      isOtherwise: title !== "Listening (F8)",
      snap: document.querySelector<HTMLSelectElement>('[aria-label="Snap to"]')?.value,
      speed: document.querySelector<HTMLInputElement>('[aria-label="Transport"] input[type="range"]')?.value,
      notes: document.querySelector<HTMLInputElement>('[aria-label="Where it lies"] input')?.value,
    };
  });
  if (left.isOtherwise) {
    await press(page, "F8");
    await page.getByRole("button", { name: "As recorded" }).click();
    await press(page, "F8");
  }
  if (left.snap !== "beat") await page.getByLabel("Snap to").selectOption("beat");
  if (left.speed !== "100") await page.getByLabel("speed, pitch kept").fill("100");
  if (left.notes) await page.getByRole("region", { name: "Where it lies" }).getByLabel("Notes").fill("");
  await press(page, "Home");
}

/** Once at first: three events, two passages and two sections to act on. */
export async function prepare(hand: Hand): Promise<void> {
  const { page } = hand;
  await press(
    page,
    "p",
    "ArrowRight",
    "ArrowRight",
    "ArrowRight",
    "5",
    "ArrowRight",
    "7",
    "a",
    "ArrowRight",
    "3",
  );
  await expect(hand.region("Part").locator("text")).toHaveCount(3);
  await press(page, "Escape", "Escape");
  for (const bars of ["1-2", "3-4"]) {
    await stepsOf(page).getByLabel("Or by bars").fill(bars);
    await press(page, "Enter");
  }
  await expect(page.getByRole("list", { name: "Passages of the song" }).getByRole("listitem")).toHaveCount(2);
  for (const [from, to, name] of [
    [0.02, 0.2, "Intro"],
    [0.25, 0.45, "Verse"],
  ] as const) {
    const record = (await page.getByRole("region", { name: "Record", exact: true }).boundingBox())!;
    await page.mouse.move(record.x + record.width * from, record.y + 30);
    await page.mouse.down();
    await page.mouse.move(record.x + record.width * to, record.y + 30, { steps: 2 });
    await page.mouse.up();
    await hand.press("Make it a section");
    await page.getByLabel("Name of the section, and of those that repeat it").fill(name);
    await press(page, "Enter");
  }
}
