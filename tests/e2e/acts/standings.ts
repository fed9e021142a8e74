import { expect, type Page } from "@playwright/test";
import { changesOf, selectedOf, stepsOf } from "../liftbook";
import type { Hand } from "./Hand";

/** What is in hand before an act is done, each reached by the shortest way. */
export type Standing = keyof typeof WAYS;

/** A change that begins in view, with one before and one after it. */
export const CHANGE = 2;

async function press(page: Page, ...keys: string[]): Promise<void> {
  for (const key of keys) await page.keyboard.press(key);
}

/** Looked for with every frame: by Playwright's own looks four hundred standings take half a minute longer. */
async function headed(page: Page, heading: string | RegExp): Promise<void> {
  const words = typeof heading === "string" ? `^${heading}$` : heading.source;
  await page.waitForFunction(
    (wanted) =>
      new RegExp(wanted).test(document.querySelector('[aria-label="Selected"] h2')?.textContent ?? ""),
    words,
    { polling: "raf" },
  );
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
  both: async (hand: Hand) => {
    await press(hand.page, "y");
    await expect(hand.region("Hear it").getByRole("button", { name: "both", pressed: true })).toBeVisible();
  },
  bass: async (hand: Hand) => {
    await WAYS.change(hand);
    await press(hand.page, "ArrowDown");
    await headed(hand.page, "Bass note");
  },
  secondBass: async (hand: Hand) => {
    await WAYS.bass(hand);
    await press(hand.page, "ArrowRight");
  },
  note: async (hand: Hand) => {
    await WAYS.bass(hand);
    await press(hand.page, "ArrowDown", "ArrowRight");
    await headed(hand.page, "Heard note");
  },
  /** A heard note that another is picked with. */
  pair: async (hand: Hand) => {
    await WAYS.note(hand);
    await press(hand.page, "Alt+Shift+ArrowRight");
    await hand.press("Write a steel note here");
    await expect(
      selectedOf(hand.page).getByRole("button", { name: "Hear them together alone" }),
    ).toBeVisible();
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
    await hand.change(CHANGE);
    await press(hand.page, "Shift+H");
    await headed(hand.page, "Home");
  },
  section: async ({ page }: Hand) => {
    await page
      .getByRole("region", { name: "Sections", exact: true })
      .locator("[data-section]")
      .nth(1)
      .click();
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
  caret: async ({ page }: Hand) => press(page, "p", "ArrowDown", ...Array<string>(7).fill("ArrowRight")),
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
  let left = await tidy(page);
  for (let escapes = 0; escapes < 4 && left.isHeld; escapes += 1) {
    await press(page, "Escape");
    left = await tidy(page);
  }
  if (left.isOtherwise) {
    await press(page, "F8");
    await page.getByRole("button", { name: "As recorded" }).click();
    await press(page, "Escape");
  }
  const { snap, speed, notes } = left;
  if (snap !== "beat") await page.getByLabel("Snap to").selectOption("beat");
  if (speed !== "100") await page.getByLabel("speed, pitch kept").fill("100");
  if (notes !== "") await page.getByRole("region", { name: "Where it lies" }).getByLabel("Notes").fill("");
  if (left.isOtherwise || speed !== "100" || notes !== "") await tidy(page);
  // Where the lanes have gone they come back too.
  await press(page, "Home");
}

/** Puts away by its controls what can be, at once, and tells what is left. */
function tidy(page: Page) {
  return page.evaluate(() => {
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    const buttons = (within: string) => [
      ...document.querySelectorAll<HTMLElement>(`[aria-label="${within}"] button`),
    ];
    const named = (name: string, within: string) =>
      buttons(within).find((each) => (each.ariaLabel ?? each.textContent?.trim()) === name);
    const set = (button: HTMLElement | undefined, isOn: boolean) => {
      if (button && (button.ariaPressed === "true") !== isOn) button.click();
    };
    const value = (selector: string) => document.querySelector<HTMLInputElement>(selector)?.value ?? "";
    named("Pause", "Transport")?.click();
    set(named("Once", "Transport"), true);
    set(named("looped", "Hear it"), false);
    set(named("Chords along", "Hear it"), false);
    set(named("record", "Hear it"), true);
    for (const each of buttons("Hear it")) if (each.textContent?.startsWith("Drone")) set(each, false);
    for (const panel of ["List of heard notes", "Check of the part", "Guess"]) named("Close", panel)?.click();
    named("Close", "Where it lies")?.click();
    named("Close Listening", "Listening")?.click();
    named("Done", "Locks")?.click();
    named("Whole song", "Passage")?.click();
    named("Drop", "Changes in a run")?.click();
    const mine = [...document.querySelectorAll("fieldset")].find(
      (each) => each.querySelector("legend")?.textContent === "Covered for me",
    );
    for (const lane of mine?.querySelectorAll("button") ?? []) set(lane, false);
    for (const tag of document.querySelectorAll<HTMLElement>('[aria-label^="Let off the lock"]')) tag.click();
    const title = document.querySelector<HTMLElement>('[aria-label="Transport"] [title^="Listening"]')?.title;
    return {
      isHeld:
        document.querySelector('[aria-label="Selected"] h2')?.textContent !== "Nothing selected" ||
        document.querySelector("dialog, [role=dialog]") !== null,
      isOtherwise: title !== "Listening (F8)",
      snap: value('[aria-label="Snap to"]'),
      speed: value('[aria-label="Transport"] > label input[type="range"]'),
      notes: value(
        '[aria-label="Where it lies"] input[type="text"], [aria-label="Where it lies"] input:not([type])',
      ),
    };
  });
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
  // Over the first beats and over a later change, so that one of the record's own lies between them.
  for (const [from, beats, name] of [
    [0, 4, "Intro"],
    [3, 3, "Verse"],
  ] as const) {
    await putAllAway(page);
    if (from > 0) await hand.change(from);
    await press(page, ...Array<string>(beats).fill("Alt+Shift+ArrowRight"));
    await hand.press("Make it a section");
    await page.getByLabel("Name of the section, and of those that repeat it").fill(name);
    await press(page, "Enter");
    await expect(page.getByRole("region", { name: "Sections" })).toContainText(name);
  }
}
