import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Microphone } from "@/lib/client/entry/Microphone";
import { seededNoise } from "@/lib/synth/seededNoise";
import { renderSteel } from "@/lib/synth/steelVoice";

/** Of the false browser's sound. */
let rate = 48_000;

/** What the false browser did, and what its microphone has heard so far. */
let browser: {
  asked: MediaStreamConstraints[];
  stopped: number;
  isContextOpen: boolean;
  sound: Float32Array;
  atSec: number;
  /** How far the sound has gone on since, and goes on with each look. */
  quantaOn: number;
  quantaALook: number;
};
let give: () => Promise<MediaStream>;
let heard: (readonly number[])[];
let together: readonly number[] | null;
/** What the ear was given. */
let asked: { samples: Float32Array; sampleRateHz: number }[];
let microphone: Microphone;

const track = Object.assign(new EventTarget(), { stop: () => (browser.stopped += 1) });
const stream = { getTracks: () => [track], getAudioTracks: () => [track] } as unknown as MediaStream;

class Context {
  readonly sampleRate = rate;
  constructor() {
    browser.isContextOpen = true;
  }
  get currentTime() {
    return browser.atSec;
  }
  async resume() {}
  async close() {
    browser.isContextOpen = false;
  }
  createMediaStreamSource() {
    return new Node(this);
  }
}
/** Nodes hand sound on with the delay that it has come by. */
class Node {
  samplesLate = 0;
  constructor(readonly context: Context) {}
  connect<To extends Node>(to: To): To {
    to.samplesLate += this.samplesLate;
    return to;
  }
}
class Delay extends Node {
  constructor(context: Context, { delayTime }: { delayTime: number }) {
    super(context);
    this.samplesLate = Math.round(delayTime * context.sampleRate);
  }
}
/** As the Web Audio API has it: 32768 samples at most, in sound that goes on between two looks. */
class Analyser extends Node {
  constructor(context: Context, options: { fftSize: number }) {
    super(context);
    if (options.fftSize > 32_768) throw new DOMException("", "IndexSizeError");
  }
  getFloatTimeDomainData(into: Float32Array) {
    const quanta = Math.floor((browser.atSec * rate) / 128) + browser.quantaOn;
    browser.quantaOn += browser.quantaALook;
    const end = Math.max(0, quanta * 128 - this.samplesLate);
    into.fill(0);
    const from = Math.max(0, end - into.length);
    into.set(browser.sound.subarray(from, end), into.length - (end - from));
  }
}

beforeEach(() => {
  vi.useFakeTimers();
  rate = 48_000;
  browser = {
    ...{ asked: [], stopped: 0, isContextOpen: false, sound: new Float32Array(4 * rate), atSec: 0 },
    ...{ quantaOn: 0, quantaALook: 0 },
  };
  asked = [];
  give = async () => stream;
  heard = [];
  together = null;
  vi.stubGlobal("isSecureContext", true);
  vi.stubGlobal("AudioContext", Context);
  vi.stubGlobal("AnalyserNode", Analyser);
  vi.stubGlobal("DelayNode", Delay);
  vi.stubGlobal("navigator", {
    mediaDevices: {
      getUserMedia(constraints: MediaStreamConstraints) {
        browser.asked.push(constraints);
        return give();
      },
    },
  });
  microphone = new Microphone({
    onNotes: (midis) => heard.push(midis),
    tuningCents: () => 0,
    hearTogether: async (samples, sampleRateHz) => {
      asked.push({ samples, sampleRateHz });
      return together;
    },
  });
});
afterEach(() => {
  microphone.close();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** Lets the browser's microphone hear what is picked, from a third of a second on. */
async function listenTo(midis: readonly number[], durationSec: number) {
  const notes = midis.map((midi) => ({
    ...{ startSec: 0.3, endSec: durationSec, pitch: [{ timeSec: 0, midi }], vibrato: null },
    ...{ level: 0.2, swellSec: 0 },
  }));
  browser.sound = renderSteel(notes, durationSec, rate, seededNoise(4));
  for (browser.atSec = 0; browser.atSec < durationSec; browser.atSec += 0.03) {
    browser.quantaOn = 0;
    await vi.advanceTimersByTimeAsync(30);
  }
}

describe("the microphone", () => {
  it("is asked for when it is wanted, without the browser's filters for speech", async () => {
    expect(browser.asked).toEqual([]);
    await microphone.open();
    expect(browser.asked).toEqual([
      { audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false } },
    ]);
    expect(microphone.now()).toMatchObject({ state: "listening", hears: "silence", note: null });
  });

  it("names a note that rings once, and the ear is not asked about it", async () => {
    together = [1];
    await microphone.open();
    await listenTo([64], 2);
    expect(heard).toEqual([[64]]);
    expect(microphone.now().note?.midi).toBe(64);
  });

  it("names what the ear tells of a pair, once; nothing where the ear cannot tell", async () => {
    await microphone.open();
    await listenTo([59, 64], 1.5);
    expect(heard).toEqual([]);
    expect(microphone.now().hears).toBe("unclear");
    microphone.close();
    together = [59.04, 63.97];
    await microphone.open();
    await listenTo([59, 64], 2.5);
    expect(heard).toEqual([[59, 64]]);
    expect(microphone.now()).toMatchObject({ note: null, together: [59, 64] });
  });

  it.each([44_100, 48_000, 96_000, 192_000])(
    "hands the ear the same length of unbroken sound at %i Hz, though it goes on while it is read",
    async (rateHz) => {
      rate = rateHz;
      browser.quantaALook = 3;
      await microphone.open();
      await listenTo([59, 64], 1.5);
      expect(asked).toHaveLength(1);
      const [{ samples, sampleRateHz }] = asked as [(typeof asked)[0]];
      expect(sampleRateHz).toBe(rateHz);
      expect(samples.length / rateHz).toBeCloseTo(0.64, 3);
      const { sound } = browser;
      // By its end, which is loud, and from there back.
      const ends = Array.from({ length: sound.length + 1 - samples.length }, (_, at) => at + samples.length);
      const isHere = (end: number) =>
        sound[end - 1] === samples.at(-1) &&
        samples.every((sample, at) => sample === sound[end - samples.length + at]);
      expect(ends.filter(isHere)).toHaveLength(1);
    },
  );

  it("is given back when listening ends, and nothing is heard after that", async () => {
    await microphone.open();
    microphone.close();
    expect(browser).toMatchObject({ stopped: 1, isContextOpen: false });
    await listenTo([64], 1);
    expect(heard).toEqual([]);
    expect(microphone.now().state).toBe("off");
  });

  it("is given back at once where leave comes too late", async () => {
    let grant = () => {};
    give = () => new Promise((resolve) => (grant = () => resolve(stream)));
    const opening = microphone.open();
    microphone.close();
    grant();
    await opening;
    expect(browser.stopped).toBe(1);
    expect(microphone.now().state).toBe("off");
  });

  it.each([
    ["NotAllowedError", /Allow it beside the address/],
    ["NotFoundError", /There is no microphone/],
    ["NotReadableError", /held by another program/],
    ["AbortError", /could not be opened/],
  ])("says in words why it is not heard: %s", async (name, words) => {
    give = () => Promise.reject(new DOMException("", name));
    await microphone.open();
    expect(microphone.now()).toMatchObject({ state: "off", fault: expect.stringMatching(words) });
  });

  it("says so when it is unplugged", async () => {
    await microphone.open();
    track.dispatchEvent(new Event("ended"));
    expect(microphone.now()).toMatchObject({ state: "off", fault: expect.stringMatching(/no microphone/) });
  });

  it("says where browsers let no page listen", async () => {
    vi.stubGlobal("navigator", {});
    await microphone.open();
    expect(microphone.now().fault).toMatch(/This browser cannot hear a microphone/);
    vi.stubGlobal("isSecureContext", false);
    await microphone.open();
    expect(microphone.now().fault).toMatch(/begins with https/);
  });
});
