import { expect, it } from "vitest";
import { WALK_STEPS } from "@/app/songs/[songId]/parts/walkSteps";
import { KeptWalk } from "@/lib/client/walk/KeptWalk";

function storage() {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  };
}

it("the first walk has five stops at most", () => {
  expect(WALK_STEPS.length).toBeGreaterThan(0);
  expect(WALK_STEPS.length).toBeLessThanOrEqual(5);
});

it("the first walk goes on and back, ends past its last stop, and is left for good by the person who left it", () => {
  const store = storage();
  const walk = new KeptWalk("ada", 3, store);
  walk.step(-1);
  expect(walk.now().at).toBe(0);
  for (const at of [1, 2]) {
    walk.step(1);
    expect(walk.now().at).toBe(at);
  }
  walk.step(-1);
  expect(walk.now().at).toBe(1);
  walk.step(1);
  walk.step(1);
  expect(walk.now().at).toBeNull();
  expect(new KeptWalk("ada", 3, store).now().at).toBeNull();
  expect(new KeptWalk("ben", 3, store).now().at).toBe(0);
  walk.again();
  expect(walk.now().at).toBe(0);
  walk.leave();
  expect(walk.now().at).toBeNull();
});

it("the first walk is left even where the browser keeps nothing", () => {
  const closed = {
    getItem: () => {
      throw new Error("refused");
    },
    setItem: () => {
      throw new Error("refused");
    },
  };
  const walk = new KeptWalk("ada", 3, closed);
  expect(walk.now().at).toBe(0);
  walk.leave();
  expect(walk.now().at).toBeNull();
});
