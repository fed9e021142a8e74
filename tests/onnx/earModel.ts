import {
  BEAT_DILATIONS,
  BINS_PER_SEMITONE,
  CHORD_BLOCKS,
  CHORD_STEP_FRAMES,
  EAR_SHIFTS,
  OCTAVES,
  SEMITONES,
} from "@/lib/hearing/learned/layout";
import type { NetworkWeights } from "@/lib/hearing/learned/NetworkWeights";
import { TrunkGraph } from "./TrunkGraph";

/**
 * The ear's network as a model of operators that any reader of ONNX knows, after the layout in
 * lib/hearing/training/README.md: features (1, bank, frame, bin) in; log probabilities of chords (1, step, class) and
 * bass (1, step, class) and probabilities of beat and downbeat (1, kind, frame) out. Frames must be a multiple of 4.
 */
export function earModel(weights: NetworkWeights): Uint8Array {
  return new EarGraph(weights).bytes();
}

class EarGraph extends TrunkGraph {
  bytes(): Uint8Array {
    const x = this.input(EAR_SHIFTS.length);
    const trunk = this.trunk(x, EAR_SHIFTS);
    this.chords(trunk);
    this.beats(trunk, x);
    return this.writer.finish();
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

  /** A convolution around the circle of pitch classes, or over one only. */
  private circular(x: string, name: string): string {
    const { shape, data } = this.weights.get(`${name}.weight`, 3);
    const [columns, channels, classes] = shape as [number, number, number];
    const round =
      classes === 1 ? x : this.writer.node("Concat", [x, this.sliced(x, 3, 0, classes - 1)], { axis: 3 });
    const kernel = this.writer.floats([columns, channels, 1, classes], data);
    return this.writer.node("Conv", [round, kernel, this.tensor(`${name}.bias`, 1)]);
  }
}
