import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { openMemory } from "@/lib/client/playback/openMemory";
import type { PlaybackAnswer, PlaybackMessage } from "@/lib/client/playback/playbackMessages";

/** The record's node in the audio thread, with what it was told. */
class ToldNode {
  static made: ToldNode | null = null;
  readonly told: PlaybackMessage["kind"][] = [];
  readonly port: {
    onmessage: ((event: { data: PlaybackAnswer }) => void) | null;
    postMessage(message: PlaybackMessage): void;
  } = { onmessage: null, postMessage: ({ kind }) => void this.told.push(kind) };
  constructor() {
    ToldNode.made = this;
  }
}

/** A second of silence, decoded. */
const DECODED = {
  length: 48_000,
  numberOfChannels: 1,
  sampleRate: 48_000,
  getChannelData: () => new Float32Array(48_000),
};

function open(signal: AbortSignal) {
  const context = {
    sampleRate: 48_000,
    audioWorklet: { addModule: async () => {} },
    decodeAudioData: async () => DECODED,
  };
  return openMemory("/record", 1, context as unknown as AudioContext, signal, () => {});
}

/** Until the audio thread has been handed all of it and is to answer. */
async function handed(): Promise<ToldNode> {
  await vi.waitFor(() => expect(ToldNode.made?.told).toContain("loaded"));
  return ToldNode.made!;
}

describe("a record that is taken into memory", () => {
  beforeEach(() => {
    ToldNode.made = null;
    vi.stubGlobal("navigator", {});
    vi.stubGlobal("AudioWorkletNode", ToldNode);
    vi.stubGlobal("fetch", async () => new Response(new Uint8Array(8)));
  });
  afterEach(() => void vi.unstubAllGlobals());

  it("is handed to the audio thread whole, which ends with the page even if nobody has taken it over", async () => {
    const leaving = new AbortController();
    const opening = open(leaving.signal);
    const node = await handed();
    node.port.onmessage?.({ data: { kind: "ready" } });
    expect((await opening).channels).toBe(1);
    expect(node.told).toEqual(["open", "chunk", "loaded"]);
    leaving.abort();
    expect(node.told.at(-1)).toBe("close");
  });

  it("ends though the audio thread does not answer any more", async () => {
    const leaving = new AbortController();
    const opening = open(leaving.signal);
    const node = await handed();
    leaving.abort(new Error("left"));
    await expect(opening).rejects.toThrow("left");
    expect(node.told).toContain("close");
  });

  it("ends where it could not be made ready, and says why", async () => {
    const opening = open(new AbortController().signal);
    const node = await handed();
    node.port.onmessage?.({ data: { kind: "failed", because: "no room" } });
    await expect(opening).rejects.toThrow("The stretch did not load: no room.");
    expect(node.told.at(-1)).toBe("close");
  });
});
