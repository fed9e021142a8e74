import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { MediaPlayback } from "@/lib/client/player/MediaPlayback";
import type { PlaybackEvents } from "@/lib/client/player/Playback";
import { falseAudio } from "./falseAudio";

const FalseAudio = falseAudio();

describe("a record that runs out", () => {
  const events = {
    ...{ began: vi.fn(), stopped: vi.fn(), ended: vi.fn(), moved: vi.fn() },
    ...{ passed: vi.fn(), turned: vi.fn(), failed: vi.fn() },
  } satisfies PlaybackEvents;
  let playback: MediaPlayback;
  beforeEach(async () => {
    vi.stubGlobal("Audio", FalseAudio);
    playback = new MediaPlayback("/record", 10, events);
    await playback.play();
  });
  afterEach(() => {
    vi.unstubAllGlobals();
    vi.clearAllMocks();
  });

  it("stops where nothing is looped", () => {
    FalseAudio.made.runOut();
    expect(events.ended).toHaveBeenCalledOnce();
    expect(FalseAudio.made.paused).toBe(true);
  });

  it("goes back to the start of a loop that ends too near the end to be looked at in time", () => {
    playback.setLoop({ startSec: 7, endSec: 9.95 }, 3);
    FalseAudio.made.runOut();
    expect(FalseAudio.made).toMatchObject({ currentTime: 7, paused: false });
    expect(events.turned).toHaveBeenCalledExactlyOnceWith(4, 1);
    expect(events.ended).not.toHaveBeenCalled();
  });
});
