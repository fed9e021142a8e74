import {
  BEAT_DILATIONS,
  BINS,
  BINS_PER_SEMITONE,
  BLOCKS_BEFORE_CONTEXT,
  CHORD_BLOCKS,
  CHORD_STEP_FRAMES,
  CONTEXT_DILATIONS,
  LONG_SHIFTS,
  OCTAVES,
  SEMITONES,
  SHORT_SHIFTS,
  TRUNK_BLOCKS,
} from "@/lib/hearing/learned/layout";
import type { NetworkWeights } from "@/lib/hearing/learned/NetworkWeights";
import { OnnxWriter } from "./OnnxWriter";

/**
 * The learned network as a model of operators that any reader of ONNX knows, after the layout in
 * lib/hearing/training/README.md: features (1, bank, frame, bin) in; log probabilities of chords (1, step, class) and
 * bass (1, step, class) and probabilities of beat and downbeat (1, kind, frame) out. Frames must be a multiple of 4.
 */
export function earModel(weights: NetworkWeights): Uint8Array {
  return new EarGraph(weights).bytes();
}

class EarGraph {
  private readonly writer = new OnnxWriter();
  private readonly weights: NetworkWeights;

  constructor(weights: NetworkWeights) {
    this.weights = weights;
  }

  bytes(): Uint8Array {
    const { writer } = this;
    const features = writer.input("features", [1, 2, "frames", BINS]);
    const scaled = writer.node("Mul", [features, this.tensor("input.scale", 1, [1, 2, 1, 1])]);
    const x = writer.node("Add", [scaled, this.tensor("input.shift", 1, [1, 2, 1, 1])]);
    const trunk = this.trunk(x);
    this.chords(trunk);
    this.beats(trunk, x);
    return writer.finish();
  }

  private trunk(x: string): string {
    const { writer } = this;
    const harmonics = [
      ...LONG_SHIFTS.map((moved) => this.moved(x, 0, moved)),
      ...SHORT_SHIFTS.map((moved) => this.moved(x, 1, moved)),
    ];
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

  private chords(trunk: string): void {
    const { writer } = this;
    const steps = [CHORD_STEP_FRAMES, 1];
    const pooled = writer.node("AveragePool", [this.point(trunk, "chord.in")], {
      kernel_shape: steps,
      strides: steps,
    });
    const channels = this.weights.get("chord.in.weight", 2).shape[0]!;
    const octaves = this.reshaped(pooled, [1, channels, -1, OCTAVES, 12]);
    const folded = this.reshaped(this.transposed(octaves, [0, 3, 1, 2, 4]), [1, OCTAVES * channels, -1, 12]);
    let rows = this.relu(this.circular(folded, "chord.circle"));
    CHORD_BLOCKS.forEach(({ dilation }, i) => {
      const { shape, data } = this.weights.get(`chord.block${i}.time.weight`, 2);
      const [count, taps] = shape as [number, number];
      const pad = ((taps - 1) / 2) * dilation;
      const filtered = writer.node(
        "Conv",
        [rows, writer.floats([count, 1, taps, 1], data), this.tensor(`chord.block${i}.time.bias`, 1)],
        { group: count, dilations: [dilation, 1], pads: [pad, 0, pad, 0] },
      );
      const mixed = this.relu(this.circular(this.relu(filtered), `chord.block${i}.mix`));
      rows = writer.node("Add", [rows, mixed]);
    });
    const said = this.point(rows, "chord.out");
    const qualities = this.weights.get("chord.out.weight", 2).shape[0]! - 1;
    const perRoot = this.transposed(this.sliced(said, 1, 0, qualities), [0, 2, 3, 1]);
    const chords = this.reshaped(perRoot, [1, -1, 12 * qualities]);
    const bass = this.reshaped(this.sliced(said, 1, qualities, qualities + 1), [1, -1, 12]);
    const mean = writer.node("ReduceMean", [rows], { axes: [3], keepdims: 0 });
    const none = this.dense(this.transposed(mean, [0, 2, 1]), "chord.none");
    const joined = (classes: string, place: number): string =>
      writer.node(
        "LogSoftmax",
        [writer.node("Concat", [classes, this.sliced(none, 2, place, place + 1)], { axis: 2 })],
        { axis: 2 },
      );
    writer.output(joined(chords, 0), "chords", [1, "steps", 12 * qualities + 1]);
    writer.output(joined(bass, 1), "bass", [1, "steps", 13]);
  }

  private beats(trunk: string, x: string): void {
    const { writer } = this;
    const short = this.reshaped(this.sliced(x, 1, 1, 2), [1, -1, SEMITONES, BINS_PER_SEMITONE]);
    const now = writer.node("ReduceMean", [short], { axes: [3], keepdims: 0 });
    const padded = writer.node("Pad", [now, writer.wholes([0, 1, 0, 0, 0, 0])]);
    const rise = this.relu(writer.node("Sub", [now, this.sliced(padded, 1, 0, -1)]));
    const row = writer.node("Concat", [this.flat(this.point(trunk, "beat.in")), now, rise], { axis: 2 });
    let path = this.transposed(this.relu(this.dense(row, "beat.dense")), [0, 2, 1]);
    path = this.overTime(path, "beat.time", BEAT_DILATIONS);
    const said = this.dense(this.transposed(path, [0, 2, 1]), "beat.out");
    writer.output(writer.node("Sigmoid", [this.transposed(said, [0, 2, 1])]), "beats", [1, 2, "frames"]);
  }

  /** Residual convolutions over time: x + max(0, convolution of x). */
  private overTime(x: string, name: string, dilations: readonly number[]): string {
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

  /** A convolution around the circle of pitch classes, or over one only. */
  private circular(x: string, name: string): string {
    const { shape, data } = this.weights.get(`${name}.weight`, 3);
    const [columns, channels, classes] = shape as [number, number, number];
    const round =
      classes === 1 ? x : this.writer.node("Concat", [x, this.sliced(x, 3, 0, classes - 1)], { axis: 3 });
    const kernel = this.writer.floats([columns, channels, 1, classes], data);
    return this.writer.node("Conv", [round, kernel, this.tensor(`${name}.bias`, 1)]);
  }

  private convolution(x: string, name: string, attributes: Record<string, number[]>): string {
    return this.writer.node(
      "Conv",
      [x, this.tensor(`${name}.weight`, 4), this.tensor(`${name}.bias`, 1)],
      attributes,
    );
  }

  /** The same layer at every frame and semitone. */
  private point(x: string, name: string): string {
    const { shape, data } = this.weights.get(`${name}.weight`, 2);
    const kernel = this.writer.floats([...shape, 1, 1], data);
    return this.writer.node("Conv", [x, kernel, this.tensor(`${name}.bias`, 1)]);
  }

  /** The same layer at every frame of (1, frame, term). */
  private dense(x: string, name: string): string {
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
  private flat(x: string): string {
    return this.reshaped(this.transposed(x, [0, 2, 1, 3]), [1, 0, -1]);
  }

  private relu(x: string): string {
    return this.writer.node("Relu", [x]);
  }

  private transposed(x: string, perm: number[]): string {
    return this.writer.node("Transpose", [x], { perm });
  }

  private reshaped(x: string, dims: number[]): string {
    return this.writer.node("Reshape", [x, this.writer.wholes(dims)]);
  }

  private sliced(x: string, axis: number, from: number, to: number): string {
    const { writer } = this;
    return writer.node("Slice", [x, writer.wholes([from]), writer.wholes([to]), writer.wholes([axis])]);
  }

  private tensor(name: string, rank: number, dims?: number[]): string {
    const { shape, data } = this.weights.get(name, rank);
    return this.writer.floats(dims ?? shape, data);
  }
}
