import {
  type BankShifts,
  BINS,
  BINS_PER_SEMITONE,
  BLOCKS_BEFORE_CONTEXT,
  CONTEXT_DILATIONS,
  TRUNK_BLOCKS,
} from "@/lib/hearing/learned/layout";
import type { NetworkWeights } from "@/lib/hearing/learned/NetworkWeights";
import { OnnxWriter } from "./OnnxWriter";

/** What the models of both networks share: the trunk, and the operators that layers are made from. */
export class TrunkGraph {
  protected readonly writer = new OnnxWriter();
  protected readonly weights: NetworkWeights;

  constructor(weights: NetworkWeights) {
    this.weights = weights;
  }

  /** The features, standardised. @param banks spectra of a frame */
  protected input(banks: number): string {
    const { writer } = this;
    const features = writer.input("features", [1, banks, "frames", BINS]);
    const scaled = writer.node("Mul", [features, this.tensor("input.scale", 1, [1, banks, 1, 1])]);
    return writer.node("Add", [scaled, this.tensor("input.shift", 1, [1, banks, 1, 1])]);
  }

  /** Rows of the trunk, rectified, from the standardised features. */
  protected trunk(x: string, shifts: BankShifts): string {
    const { writer } = this;
    const harmonics = shifts.flatMap((moves, bank) => moves.map((moved) => this.moved(x, bank, moved)));
    const stack = writer.node("Concat", harmonics, { axis: 1 });
    const [, , , binTaps] = this.weights.get("stem.weight", 4).shape as [number, number, number, number];
    const margin = (binTaps - BINS_PER_SEMITONE) / 2;
    let rows = this.relu(
      this.convolution(stack, "stem", { strides: [1, BINS_PER_SEMITONE], pads: [1, margin, 1, margin] }),
    );
    TRUNK_BLOCKS.forEach(({ timeDilation, semitoneDilation }, i) => {
      const expanded = this.relu(this.point(rows, `block${i}.expand`));
      const { shape, data } = this.weights.get(`block${i}.depth.weight`, 3);
      const [inner, time, band] = shape as [number, number, number];
      const [timePad, bandPad] = [((time - 1) / 2) * timeDilation, ((band - 1) / 2) * semitoneDilation];
      const filtered = writer.node(
        "Conv",
        [expanded, writer.floats([inner, 1, time, band], data), this.tensor(`block${i}.depth.bias`, 1)],
        {
          group: inner,
          dilations: [timeDilation, semitoneDilation],
          pads: [timePad, bandPad, timePad, bandPad],
        },
      );
      rows = writer.node("Add", [rows, this.point(this.relu(filtered), `block${i}.project`)]);
      if (i === BLOCKS_BEFORE_CONTEXT - 1) rows = this.withContext(rows);
    });
    return this.relu(rows);
  }

  private withContext(rows: string): string {
    const { writer } = this;
    const flat = this.flat(this.point(rows, "global.in"));
    let path = this.transposed(this.relu(this.dense(flat, "global.dense")), [0, 2, 1]);
    path = this.overTime(path, "global.time", CONTEXT_DILATIONS);
    const spread = this.dense(this.transposed(path, [0, 2, 1]), "global.out");
    const added = writer.node("Unsqueeze", [this.transposed(spread, [0, 2, 1]), writer.wholes([3])]);
    return writer.node("Add", [rows, added]);
  }

  /** Residual convolutions over time: x + max(0, convolution of x). */
  protected overTime(x: string, name: string, dilations: readonly number[]): string {
    let path = x;
    dilations.forEach((dilation, i) => {
      const pad = ((this.weights.get(`${name}${i}.weight`, 3).shape[2]! - 1) / 2) * dilation;
      const inputs = [path, this.tensor(`${name}${i}.weight`, 3), this.tensor(`${name}${i}.bias`, 1)];
      const filtered = this.writer.node("Conv", inputs, { dilations: [dilation], pads: [pad, pad] });
      path = this.writer.node("Add", [path, this.relu(filtered)]);
    });
    return path;
  }

  /** One bank, bin k from bin k + moved, 0 where there is none. */
  private moved(x: string, bank: number, moved: number): string {
    const [before, after] = [Math.max(0, -moved), Math.max(0, moved)];
    const kept = this.sliced(this.sliced(x, 1, bank, bank + 1), 3, after, BINS - before);
    return this.writer.node("Pad", [kept, this.writer.wholes([0, 0, 0, before, 0, 0, 0, after])]);
  }

  private convolution(x: string, name: string, attributes: Record<string, number[]>): string {
    return this.writer.node(
      "Conv",
      [x, this.tensor(`${name}.weight`, 4), this.tensor(`${name}.bias`, 1)],
      attributes,
    );
  }

  /** The same layer at every frame and semitone. */
  protected point(x: string, name: string): string {
    const { shape, data } = this.weights.get(`${name}.weight`, 2);
    const kernel = this.writer.floats([...shape, 1, 1], data);
    return this.writer.node("Conv", [x, kernel, this.tensor(`${name}.bias`, 1)]);
  }

  /** The same layer at every frame of (1, frame, term). */
  protected dense(x: string, name: string): string {
    const { shape, data } = this.weights.get(`${name}.weight`, 2);
    const [columns, terms] = shape as [number, number];
    const turned = Float32Array.from(
      { length: data.length },
      (_, at) => data[(at % columns) * terms + Math.floor(at / columns)]!,
    );
    const product = this.writer.node("MatMul", [x, this.writer.floats([terms, columns], turned)]);
    return this.writer.node("Add", [product, this.tensor(`${name}.bias`, 1)]);
  }

  /** (1, channel, frame, semitone) to (1, frame, channel and semitone). */
  protected flat(x: string): string {
    return this.reshaped(this.transposed(x, [0, 2, 1, 3]), [1, 0, -1]);
  }

  protected relu(x: string): string {
    return this.writer.node("Relu", [x]);
  }

  protected transposed(x: string, perm: number[]): string {
    return this.writer.node("Transpose", [x], { perm });
  }

  protected reshaped(x: string, dims: number[]): string {
    return this.writer.node("Reshape", [x, this.writer.wholes(dims)]);
  }

  protected sliced(x: string, axis: number, from: number, to: number): string {
    const { writer } = this;
    return writer.node("Slice", [x, writer.wholes([from]), writer.wholes([to]), writer.wholes([axis])]);
  }

  protected tensor(name: string, rank: number, dims?: number[]): string {
    const { shape, data } = this.weights.get(name, rank);
    return this.writer.floats(dims ?? shape, data);
  }
}
