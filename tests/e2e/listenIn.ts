import type { Page } from "@playwright/test";

/** Lower is silence. */
const FLOOR_DB = -120;

/** What a page sends to the ears, kept for looking at. */
interface Caught {
  output?: AnalyserNode;
}

/** From the next page on, listens in on what is sent to the ears, after all else. @param ear one of them alone */
export async function listenIn(page: Page, ear: "both" | "right" = "both"): Promise<void> {
  await page.addInitScript((which) => {
    const caught = window as unknown as Caught;
    const connect = AudioNode.prototype.connect as (
      this: AudioNode,
      to: AudioNode,
      ...rest: number[]
    ) => AudioNode;
    Object.assign(AudioNode.prototype, {
      connect(this: AudioNode, to: AudioNode, ...rest: number[]) {
        const { context } = this;
        if (to instanceof AudioDestinationNode && context instanceof AudioContext && !caught.output) {
          caught.output = new AnalyserNode(context, { fftSize: 8192, smoothingTimeConstant: 0 });
          const apart = which === "right" ? new ChannelSplitterNode(context, { numberOfOutputs: 2 }) : null;
          if (apart) connect.call(this, apart);
          connect.call(apart ?? this, caught.output, apart ? 1 : 0);
        }
        return connect.call(this, to, ...rest);
      },
    });
  }, ear);
}

/** Levels now around frequencies, in dB. @throws where nothing was sent to the ears so far, which is no silence */
export function levelsAt(page: Page, frequenciesHz: readonly number[]): Promise<number[]> {
  return page.evaluate(
    ({ wanted, floorDb }) => {
      const { output } = window as unknown as Caught;
      if (!output) throw new Error("Nothing was sent to the ears so far.");
      const levels = new Float32Array(output.frequencyBinCount);
      output.getFloatFrequencyData(levels);
      return wanted.map((hz) => {
        const bin = Math.round((hz * output.fftSize) / output.context.sampleRate);
        return Math.max(floorDb, ...levels.slice(bin - 1, bin + 2));
      });
    },
    { wanted: frequenciesHz, floorDb: FLOOR_DB },
  );
}

/** The same around one. */
export async function levelAt(page: Page, frequencyHz: number): Promise<number> {
  const [level = FLOOR_DB] = await levelsAt(page, [frequencyHz]);
  return level;
}
