import { type Browser, type CDPSession, chromium, type Page } from "@playwright/test";
import { pages } from "@/lib/contracts/api";
import { BROWSER_SWITCHES, findBrowser } from "../../e2e/browser";
import type { Served } from "./serve";

/** What the main thread spent, in milliseconds of its own processor time. */
export interface Spent {
  allMs: number;
  scriptMs: number;
  layoutMs: number;
}

/** What stands in memory after garbage was collected. */
export interface Standing {
  heapMb: number;
  domNodes: number;
  listeners: number;
}

const BROWSER = [...BROWSER_SWITCHES, "--mute-audio"];

/** A page in Chromium that is signed in, with the browser's own meters. */
export class BenchPage {
  private constructor(
    private readonly browser: Browser,
    readonly page: Page,
    readonly meters: CDPSession,
  ) {}

  /** @param beforeAll run in the page before any script of its own */
  static async open({ url, account }: Served, beforeAll?: () => void): Promise<BenchPage> {
    const browser = await chromium.launch({ executablePath: await findBrowser(), args: BROWSER });
    const context = await browser.newContext({ baseURL: url, viewport: { width: 1440, height: 900 } });
    const page = await context.newPage();
    // tsx names functions by this helper, which functions that are handed to the page then look for there.
    await page.addInitScript("globalThis.__name ??= (named) => named");
    if (beforeAll) await page.addInitScript(beforeAll);
    await page.goto(pages.signIn());
    await page.getByLabel("E-mail").fill(account.email);
    await page.getByLabel(/^Password/).fill(account.password);
    await page.getByRole("button", { name: "Sign in", exact: true }).click();
    await page.waitForURL("**/books");
    const meters = await context.newCDPSession(page);
    await meters.send("Performance.enable", { timeDomain: "threadTicks" });
    return new BenchPage(browser, page, meters);
  }

  async openSong(songId: string): Promise<void> {
    await this.page.goto(pages.song(songId));
    await this.untilDrawn();
  }

  /** Until the lanes show the song. */
  async untilDrawn(): Promise<void> {
    await this.page.locator("[data-change]").first().waitFor({ timeout: 120_000 });
  }

  async spent(): Promise<Spent> {
    const { metrics } = await this.meters.send("Performance.getMetrics");
    const ms = (name: string) => 1_000 * (metrics.find((each) => each.name === name)?.value ?? 0);
    return {
      allMs: ms("TaskDuration"),
      scriptMs: ms("ScriptDuration"),
      layoutMs: ms("LayoutDuration") + ms("RecalcStyleDuration"),
    };
  }

  async standing(): Promise<Standing> {
    // Twice, since what the first run finalises is freed by the next.
    for (let run = 0; run < 2; run++) await this.meters.send("HeapProfiler.collectGarbage");
    const [{ usedSize }, { nodes, jsEventListeners }] = await Promise.all([
      this.meters.send("Runtime.getHeapUsage"),
      this.meters.send("Memory.getDOMCounters"),
    ]);
    return { heapMb: usedSize / 2 ** 20, domNodes: nodes, listeners: jsEventListeners };
  }

  async close(): Promise<void> {
    await this.browser.close();
  }
}
