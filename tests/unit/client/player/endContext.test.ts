import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { endContext, WORKLETS_END_MS } from "@/lib/client/player/endContext";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

it("is silent at once and closes only when worklets had time to end, so that none is kept", () => {
  const done: string[] = [];
  endContext({ close: async () => void done.push("closed") }, { disconnect: () => void done.push("silent") });
  expect(done).toEqual(["silent"]);
  vi.advanceTimersByTime(WORKLETS_END_MS - 1);
  expect(done).toEqual(["silent"]);
  vi.advanceTimersByTime(1);
  expect(done).toEqual(["silent", "closed"]);
});
