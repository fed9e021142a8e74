import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import vm from "node:vm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { bundleWorklet } from "@/lib/cli/start/bundleWorklets";
import { type SoundMessage, STRINGS_PROCESSOR } from "@/lib/client/sound/soundMessages";
import { type SteelNote, steelPluck } from "@/lib/synth/steelPluck";
import { renderSteel } from "@/lib/synth/steelVoice";

const RATE_HZ = 48_000;
const BLOCK = 128;

interface Processor {
  port: { onmessage(event: { data: SoundMessage }): void };
  process(inputs: Float32Array[][], outputs: Float32Array[][]): boolean;
}

let folder = "";
let code = "";
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "liftbook-strings-"));
  const out = path.join(folder, "strings.js");
  await bundleWorklet(process.cwd(), "lib/client/sound/stringsProcessor.ts", out);
  code = await readFile(out, "utf8");
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** Runs the file that the start makes where there is nothing but what an AudioWorkletGlobalScope has. */
function audioThread() {
  const scope = {
    sampleRate: RATE_HZ,
    currentFrame: 0,
    AudioWorkletProcessor: class {
      port = {};
    },
    made: new Map<string, new () => Processor>(),
    registerProcessor(name: string, made: new () => Processor) {
      this.made.set(name, made);
    },
  };
  const globals = vm.createContext({ ...scope, registerProcessor: scope.registerProcessor.bind(scope) });
  vm.runInContext(code, globals);
  const Made = scope.made.get(STRINGS_PROCESSOR)!;
  const processor = new Made();
  return {
    tell: (data: SoundMessage) => processor.port.onmessage({ data }),
    /** Asks for blocks until so many samples came; gives the steel's. */
    run(count: number): Float32Array {
      const steel = new Float32Array(count);
      for (let at = 0; at < count; at += BLOCK) {
        const outputs = [[new Float32Array(BLOCK)], [new Float32Array(BLOCK)]];
        if (!processor.process([], outputs)) break;
        steel.set(outputs[0]![0]!.subarray(0, Math.min(BLOCK, count - at)), at);
        globals.currentFrame += BLOCK;
      }
      return steel;
    },
  };
}

const notes: SteelNote[] = [
  {
    startSec: 0.1,
    endSec: 0.5,
    pitch: [{ timeSec: 0.1, midi: 64 }],
    vibrato: null,
    level: 0.4,
    swellSec: 0.02,
  },
  {
    startSec: 0.2,
    endSec: 0.6,
    pitch: [{ timeSec: 0.2, midi: 59 }],
    vibrato: null,
    level: 0.4,
    swellSec: 0.02,
  },
];
const inBank = notes.map((note, at) => ({
  ...{ id: String(at), timbre: "steel" as const, pluck: steelPluck(note, 5, 1) },
}));

describe("the file that the start makes for the audio thread", () => {
  it("plays what the same core renders at once", () => {
    const thread = audioThread();
    thread.tell({ kind: "play", group: "part:1", notes: inBank });
    thread.tell({ kind: "song", sec: 0, atSec: 0, speed: 1 });
    const live = thread.run(0.8 * RATE_HZ);
    const rendered = renderSteel(notes, 0.8, RATE_HZ, () => 0, 5);
    expect(live.findIndex((sample, at) => Math.abs(sample - rendered[at]!) > 1e-6)).toBe(-1);
    expect(live.some((sample) => Math.abs(sample) > 0.1)).toBe(true);
  });

  it("begins at once what is to sound now, however long the page has been open", () => {
    const thread = audioThread();
    thread.run(5 * RATE_HZ);
    const now = inBank.map((note) => ({ ...note, pluck: { ...note.pluck, startSec: 0 } }));
    thread.tell({ kind: "play", group: "steelNow", notes: now });
    expect(thread.run(0.1 * RATE_HZ).some((sample) => Math.abs(sample) > 0.1)).toBe(true);
  });

  it("is silent once the song stands still, and goes when the page is done", () => {
    const thread = audioThread();
    thread.tell({ kind: "play", group: "part:1", notes: inBank });
    thread.tell({ kind: "song", sec: 0, atSec: 0, speed: 1 });
    thread.run(0.3 * RATE_HZ);
    thread.tell({ kind: "halt" });
    thread.run(0.1 * RATE_HZ);
    expect(thread.run(0.1 * RATE_HZ).every((sample) => sample === 0)).toBe(true);
    thread.tell({ kind: "close" });
    thread.tell({ kind: "song", sec: 0.2, atSec: 0, speed: 1 });
    expect(thread.run(0.1 * RATE_HZ).every((sample) => sample === 0)).toBe(true);
  });
});
