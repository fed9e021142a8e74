import type { BenchPage, Spent } from "./BenchPage";

/** What is done on each frame while frames are timed. */
export type FrameAct = "nothing" | "scroll" | "zoom";

/** The times from frame to frame, and what one frame took of the main thread. */
export interface FrameTimes {
  frameMs: number[];
  spentAFrame: Spent;
}

/** Of a wheel, on each frame. */
const SCROLL_PX = 40;
const ZOOM_PX = 25;
/** Then the other way. */
const TURN_AFTER_FRAMES = 60;

/** Runs in the page: wheels over the lanes once a frame. @returns the times between frames, ms */
function onEachFrame({
  act,
  frames,
  scrollPx,
  zoomPx,
  turnAfter,
}: {
  act: FrameAct;
  frames: number;
  scrollPx: number;
  zoomPx: number;
  turnAfter: number;
}): Promise<number[]> {
  const lanes = document.querySelector('main[aria-label="Lanes"]');
  if (!lanes) throw new Error("there are no lanes");
  const box = lanes.getBoundingClientRect();
  const where = { clientX: box.left + box.width / 2, clientY: box.top + 90, bubbles: true, cancelable: true };
  return new Promise((resolve) => {
    const times: number[] = [];
    let before = 0;
    const onFrame = (nowMs: number) => {
      if (before > 0) times.push(nowMs - before);
      before = nowMs;
      if (times.length >= frames) return resolve(times);
      const turn = Math.floor(times.length / turnAfter) % 2 === 0 ? 1 : -1;
      if (act === "scroll") lanes.dispatchEvent(new WheelEvent("wheel", { ...where, deltaX: scrollPx }));
      if (act === "zoom")
        lanes.dispatchEvent(new WheelEvent("wheel", { ...where, deltaY: turn * zoomPx, ctrlKey: true }));
      requestAnimationFrame(onFrame);
    };
    requestAnimationFrame(onFrame);
  });
}

/** Times frames while something is done on each of them. */
export async function timeFrames(bench: BenchPage, act: FrameAct, frames: number): Promise<FrameTimes> {
  const before = await bench.spent();
  const frameMs = await bench.page.evaluate(onEachFrame, {
    act,
    frames,
    scrollPx: SCROLL_PX,
    zoomPx: ZOOM_PX,
    turnAfter: TURN_AFTER_FRAMES,
  });
  const after = await bench.spent();
  const share = (name: keyof Spent) => (after[name] - before[name]) / frameMs.length;
  return {
    frameMs,
    spentAFrame: { allMs: share("allMs"), scriptMs: share("scriptMs"), layoutMs: share("layoutMs") },
  };
}

/** From each press to the next picture, and what one press took of the main thread. */
export interface KeyTimes {
  answeredMs: number[];
  spentMs: number;
}

/** Presses a key some times, each after the last is answered. */
export async function timeKeys(bench: BenchPage, key: string, times: number): Promise<KeyTimes> {
  const answeredMs: number[] = [];
  const before = await bench.spent();
  for (let press = 0; press < times; press++) {
    await bench.page.evaluate(() => {
      const held = window as unknown as { answered?: Promise<number> };
      held.answered = new Promise((resolve) => {
        window.addEventListener(
          "keydown",
          (event) => {
            // After the next frame's own work, and what came of it.
            requestAnimationFrame(() => {
              const channel = new MessageChannel();
              channel.port1.onmessage = () => resolve(performance.now() - event.timeStamp);
              channel.port2.postMessage(null);
            });
          },
          { capture: true, once: true },
        );
      });
    });
    await bench.page.keyboard.press(key);
    answeredMs.push(
      await bench.page.evaluate(() => (window as unknown as { answered: Promise<number> }).answered),
    );
  }
  return { answeredMs, spentMs: ((await bench.spent()).allMs - before.allMs) / times };
}
