import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { OutputChain } from "@/lib/client/player/outputChain";
import { LiveStrings } from "@/lib/client/sound/LiveStrings";
import type { SoundMessage } from "@/lib/client/sound/soundMessages";

/** A node of the audio thread, with what it was told. */
class ToldNode {
  static made: ToldNode[] = [];
  readonly told: SoundMessage[] = [];
  isConnected = false;
  readonly port = { postMessage: (message: SoundMessage) => void this.told.push(message) };
  constructor() {
    ToldNode.made.push(this);
  }
  connect() {
    this.isConnected = true;
  }
  disconnect() {
    this.isConnected = false;
  }
}

/** The way to the ears, whose strings are there when the test says so. */
function slowChain() {
  let arrive = () => {};
  const loaded = new Promise<void>((resolve) => {
    arrive = resolve;
  });
  const chain = { context: { audioWorklet: { addModule: () => loaded } }, mix: {} };
  return { chain: chain as unknown as OutputChain, arrive };
}

describe("strings of the audio thread", () => {
  beforeEach(() => {
    ToldNode.made = [];
    vi.stubGlobal("AudioWorkletNode", ToldNode);
  });
  afterEach(() => void vi.unstubAllGlobals());

  it("are told what sounds once they are open, and that they end", async () => {
    const { chain, arrive } = slowChain();
    const strings = new LiveStrings();
    arrive();
    await Promise.all([strings.open(chain), strings.open(chain)]);
    expect(ToldNode.made).toHaveLength(1);
    strings.tell({ kind: "halt" });
    strings.close();
    expect(ToldNode.made[0]).toMatchObject({
      told: [{ kind: "halt" }, { kind: "close" }],
      isConnected: false,
    });
  });

  it("end though the page was left before they had come, and are told nothing", async () => {
    const { chain, arrive } = slowChain();
    const strings = new LiveStrings();
    const opening = strings.open(chain);
    strings.close();
    arrive();
    await opening;
    strings.tell({ kind: "halt" });
    expect(ToldNode.made).toHaveLength(1);
    expect(ToldNode.made[0]).toMatchObject({ told: [{ kind: "close" }], isConnected: false });
  });
});
