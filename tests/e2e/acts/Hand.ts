import type { Locator, Page } from "@playwright/test";
import { changesOf, dragOverRecord, headingOf, selectedOf } from "../liftbook";

/** The mouse of whoever does an act without its key, and the places of the page that it goes to. */
export class Hand {
  constructor(readonly page: Page) {}

  region(name: string): Locator {
    return this.page.getByRole("region", { name, exact: true });
  }

  get selected(): Locator {
    return selectedOf(this.page);
  }

  /** Presses a button by its name. @param within a region by its name; the column of what is selected by default */
  async press(name: string | RegExp, within: string | Locator = this.selected): Promise<void> {
    const place = typeof within === "string" ? this.region(within) : within;
    await place.getByRole("button", { name, exact: true }).first().click();
  }

  async choose(label: string, value: string): Promise<void> {
    await this.page.getByRole("combobox", { name: label }).selectOption(value);
  }

  /** Puts a slider of the transport or of what is heard beside it. */
  async slide(label: string, value: string): Promise<void> {
    await this.page.getByLabel(label).first().fill(value);
  }

  async fill(label: string, value: string): Promise<void> {
    await this.page.getByLabel(label, { exact: true }).fill(value);
  }

  /** Opens Listening by its button and presses one of its own. */
  async listen(name: string): Promise<void> {
    await this.press(/^Listening/, "Transport");
    await this.press(name, "Listening");
  }

  change(index: number): Promise<void> {
    return changesOf(this.page).nth(index).click();
  }

  section(index: number): Promise<void> {
    return this.region("Sections").locator("[data-section]").nth(index).click();
  }

  /** What the machine took it for beside what stands there: the first. */
  async otherGuess(): Promise<void> {
    await this.selected
      .locator('button[aria-pressed="false"]', { hasText: /% sure/ })
      .first()
      .click();
  }

  /** Clicks in a lane at the beginning of a change. */
  async clickUnder(index: number, lane: string, y: number): Promise<void> {
    const at = (await changesOf(this.page).nth(index).boundingBox())!;
    const box = (await this.region(lane).boundingBox())!;
    await this.page.mouse.click(at.x + 4, box.y + y);
  }

  /** How wide a beat is drawn where the song begins. */
  async beatPx(): Promise<number> {
    const bar = async (number: number) =>
      (await this.region("Bars").locator(`[data-bar="bar ${number}"]`).boundingBox())!.x;
    return ((await bar(3)) - (await bar(2))) / 4;
  }

  async drag(from: { x: number; y: number }, px: number): Promise<void> {
    await this.page.mouse.move(from.x, from.y);
    await this.page.mouse.down();
    await this.page.mouse.move(from.x + px / 2, from.y);
    await this.page.mouse.move(from.x + px, from.y);
    await this.page.mouse.up();
  }

  /** Draws an edge of what is selected in a lane along by beats. */
  async dragEdge(edge: "start" | "end", beats: number): Promise<void> {
    const box = (await this.page
      .getByRole("main", { name: "Lanes" })
      .locator(":is([data-change], [data-section])[aria-pressed='true']")
      .first()
      .boundingBox())!;
    const x = edge === "start" ? box.x : box.x + box.width;
    await this.drag({ x, y: box.y + box.height / 2 }, beats * (await this.beatPx()));
  }

  /** On what string the note on the bench is held, as its key says it. */
  async stringTag(): Promise<string> {
    return (await this.region("Selected").getByRole("status").first().textContent()) ?? "";
  }

  dragOverRecord(): Promise<void> {
    return dragOverRecord(this.page, 0.2, 0.35);
  }

  /** Where a cell of the part stands. */
  async cell(index: number): Promise<{ x: number; y: number }> {
    const box = (await this.region("Part").locator("text").nth(index).boundingBox())!;
    return { x: box.x + 3, y: box.y + box.height / 2 };
  }

  async dragCell(index: number, beats: number): Promise<void> {
    await this.drag(await this.cell(index), beats * (await this.beatPx()));
  }

  /** Clicks in the part, so many beats and strings from where the caret stands. */
  async clickFromCaret(beats: number, strings: number): Promise<void> {
    const box = (await this.region("Part").locator('rect[class*="caret"]').boundingBox())!;
    await this.page.mouse.click(
      box.x + 4 + beats * (await this.beatPx()),
      box.y + box.height / 2 + strings * 20,
    );
  }

  /** A pedal or lever of what is selected, in their order. */
  async pedal(index: number): Promise<void> {
    await this.selected
      .locator("div")
      .filter({ has: this.page.getByText("Pedals and levers", { exact: true }) })
      .last()
      .getByRole("button")
      .nth(index)
      .click();
  }

  /** Draws a box about the events of the part. */
  async box(): Promise<void> {
    const first = await this.cell(0);
    const last = await this.cell(1);
    const away = (await this.beatPx()) * 0.4;
    await this.page.mouse.move(first.x - away, first.y - 30);
    await this.page.mouse.down();
    await this.page.mouse.move(last.x, last.y);
    await this.page.mouse.move(last.x + away, last.y + 30);
    await this.page.mouse.up();
  }

  /** The heard note before or after the selected one, from the list of them. */
  async listedNote(step: -1 | 1): Promise<void> {
    await this.press("list them", "Heard");
    const rows = this.region("List of heard notes").getByRole("row");
    const at = await rows.evaluateAll((all) => all.findIndex((row) => row.ariaCurrent === "true"));
    await rows
      .nth(at + step)
      .getByRole("button")
      .click();
  }

  async passage(index: number): Promise<void> {
    await this.page
      .getByRole("list", { name: "Passages of the song" })
      .getByRole("button")
      .nth(index)
      .click();
  }

  heading(): Promise<string | null> {
    return headingOf(this.page).textContent();
  }
}
