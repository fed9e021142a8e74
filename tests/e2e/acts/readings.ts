import type { Page } from "@playwright/test";
import type { SongReplica } from "./SongReplica";

/** What is looked at to see what an act did: the shared song itself, or a side of the page. */
export type Reading = "song" | keyof PageReading;

/** What a page tells of itself, each side as one text. */
export interface PageReading {
  /** What is selected, and where it lies. */
  inHand: string;
  /** Where the caret of the part stands on the screen. */
  caret: string;
  /** Whether the record plays. */
  playing: string;
  /** Where the record is. */
  clock: string;
  /** Loop, speed, how one listens, what sounds beside the record, what is tried. */
  listening: string;
  /** Where the lanes are, and how wide. */
  lanes: string;
  /** What is open over and under the lanes, and the snap. */
  panels: string;
  /** What was said last. */
  said: string;
  taps: string;
  /** What has the focus. */
  focus: string;
  /** What is named and locked on the bench. */
  bench: string;
  /** What the check says. */
  check: string;
  guess: string;
  /** Which part is in hand. */
  part: string;
  /** How many sounds of its own the page has begun. */
  sounds: string;
}

/** Counts what the page sounds by itself; runs in a page before its own scripts. */
export function countSounds(): void {
  const counted = window as unknown as { begun: number };
  counted.begun = 0;
  const { start } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (...when) {
    counted.begun += 1;
    start.apply(this, when);
  };
  const { postMessage } = MessagePort.prototype;
  MessagePort.prototype.postMessage = function (this: MessagePort, message: unknown, ...rest: never[]) {
    const { kind, notes } = (message ?? {}) as { kind?: string; notes?: unknown[] };
    if (kind === "play" && notes && notes.length > 0) counted.begun += 1;
    return (postMessage as (...all: unknown[]) => void).call(this, message, ...rest);
  } as typeof postMessage;
}

export async function readPage(page: Page): Promise<PageReading> {
  return page.evaluate(() => {
    const all = (selector: string, within: ParentNode | null = document) => [
      ...(within?.querySelectorAll<HTMLElement>(selector) ?? []),
    ];
    const one = (selector: string, within: ParentNode | null = document) => all(selector, within)[0] ?? null;
    const text = (element: Element | null) => element?.textContent?.trim() ?? "";
    const region = (name: string) => one(`[aria-label="${name}"]`);
    const selected = region("Selected");
    const transport = region("Transport");
    const value = (selector: string, within: ParentNode | null = document) =>
      (one(selector, within) as HTMLInputElement | null)?.value ?? "";
    const pressed = (within: Element | null) =>
      all('[aria-pressed="true"]', within)
        .map((each) => each.ariaLabel ?? text(each))
        .join();
    const change = one("[data-change]")?.getBoundingClientRect();
    const active = document.activeElement;
    const panels = [
      "Listening",
      "List of heard notes",
      "Check of the part",
      "Guess",
      "Changes in a run",
      "Locks",
      "Chosen events",
    ];
    return {
      inHand: [one("h2", selected), ...all(":scope > p, :scope > form [aria-label]", selected)]
        .map(text)
        .join("|"),
      caret: String(one('rect[class*="caret"]')?.getBoundingClientRect().x),
      playing: String(one('[aria-label="Pause"]', transport) !== null),
      clock: text(one("[class*=clock]", transport)),
      listening: [
        all(':scope > div [aria-pressed="true"]', transport).map(text).join(),
        value(':scope > label input[type="range"]', transport),
        one("button[aria-expanded][title^=Listening]", transport)?.title,
        pressed(region("Hear it")),
        text(one("p", region("Hear it"))),
        value('input[type="range"]', region("Hear it")),
      ].join("|"),
      lanes: change ? `${Math.round(change.x)} ${Math.round(change.width)}` : "",
      panels: [
        ...panels.filter((name) => document.querySelector(`:is(section, fieldset)[aria-label="${name}"]`)),
        ...all("dialog, [role=dialog]").map((each) => each.ariaLabel ?? text(one("h2", each))),
        value('[aria-label="Snap to"]'),
      ].join("|"),
      said: text(all('[class*="middle"] > [role="status"]').at(-1) ?? null),
      taps: text(one("p", region("Tap the beats"))),
      focus: `${active?.tagName} ${active?.ariaLabel ?? text(active?.closest("label") ?? active)}`,
      bench: [
        value("input", region("Where it lies")),
        ...all('[aria-label^="Let off"]').map((each) => each.ariaLabel),
      ].join("|"),
      // Once it is done.
      check: /show no fault/.exec(text(one('[role="status"]', region("Check of the part"))))?.input ?? "",
      guess: text(region("Guess")),
      part: all('[aria-current="true"]')
        .filter(({ tagName }) => tagName === "SECTION")
        .map((each) => each.ariaLabel)
        .join(),
      sounds: String((window as unknown as { begun?: number }).begun),
    };
  });
}

export async function read(what: Reading, page: Page, replica: SongReplica): Promise<string> {
  return what === "song" ? replica.text() : (await readPage(page))[what];
}
