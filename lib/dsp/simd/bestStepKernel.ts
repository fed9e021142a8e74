import { KernelWriter } from "./KernelWriter";
import type { KernelFunction } from "./wasmModule";

/**
 * One step of a search for best paths, for many states at once: where value - cost is more than the score so far, it
 * becomes the score, and the label is noted. Parameters: values, costs, scores, labels, label (a float in memory),
 * vectors of four states (at least 1).
 */
export function bestStepKernel(): KernelFunction {
  const writer = new KernelWriter("bestStep", 6);
  const [values, costs, scores, labels, label, vectors] = [0, 1, 2, 3, 4, 5] as const;
  const [value, score, better, name] = [writer.vector(), writer.vector(), writer.vector(), writer.vector()];
  writer.loadSplat(label, 0).set(name);
  writer.countDown(vectors, () => {
    writer.load(values, 0).load(costs, 0).subtract().set(value);
    writer.load(scores, 0).set(score);
    writer.get(value).get(score).greater().set(better);
    writer.get(value).get(score).get(better).chooseBits().set(score).store(scores, 0, score);
    writer.get(name).load(labels, 0).get(better).chooseBits().set(score).store(labels, 0, score);
    writer.step(values, 16).step(costs, 16).step(scores, 16).step(labels, 16);
  });
  return writer.function();
}
