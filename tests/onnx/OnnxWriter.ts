/**
 * Writes models of the Open Neural Network Exchange (onnx.proto3 of ONNX 1.12: IR version 8, operators of version
 * 17), in the wire format of Protocol Buffers.
 */
const IR_VERSION = 8;
const OPERATORS_VERSION = 17;
const FLOAT = 1;
const INT64 = 7;

/** A field with a whole number (wire type 0); negative ones take ten bytes. */
function whole(field: number, value: number): number[] {
  return [...varint(8 * field), ...varint(value)];
}

function varint(value: number): number[] {
  const bytes: number[] = [];
  let rest = BigInt.asUintN(64, BigInt(value));
  do {
    const low = Number(rest & 0x7fn);
    rest >>= 7n;
    bytes.push(rest === 0n ? low : low | 0x80);
  } while (rest !== 0n);
  return bytes;
}

/** A field with bytes in it (wire type 2). */
function sized(field: number, bytes: Uint8Array): Uint8Array {
  return joined([Uint8Array.from([...varint(8 * field + 2), ...varint(bytes.length)]), bytes]);
}

function text(field: number, value: string): Uint8Array {
  return sized(field, new TextEncoder().encode(value));
}

function joined(parts: readonly (Uint8Array | number[])[]): Uint8Array {
  const all = parts.map((part) => (part instanceof Uint8Array ? part : Uint8Array.from(part)));
  const result = new Uint8Array(all.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of all) {
    result.set(part, at);
    at += part.length;
  }
  return result;
}

function tensor(name: string, dims: readonly number[], type: number, raw: Uint8Array): Uint8Array {
  return joined([...dims.map((dim) => whole(1, dim)), whole(2, type), text(8, name), sized(9, raw)]);
}

/** A named value with its extents; a word stands for an extent that is free. */
function valueInfo(name: string, dims: readonly (number | string)[]): Uint8Array {
  const shape = joined(
    dims.map((dim) => sized(1, typeof dim === "number" ? Uint8Array.from(whole(1, dim)) : text(2, dim))),
  );
  const type = sized(1, joined([whole(1, FLOAT), sized(2, shape)]));
  return joined([text(1, name), sized(2, type)]);
}

export class OnnxWriter {
  private readonly nodes: Uint8Array[] = [];
  private readonly initializers: Uint8Array[] = [];
  private readonly inputs: Uint8Array[] = [];
  private readonly outputs: Uint8Array[] = [];
  private count = 0;

  input(name: string, dims: readonly (number | string)[]): string {
    this.inputs.push(valueInfo(name, dims));
    return name;
  }

  output(value: string, name: string, dims: readonly (number | string)[]): void {
    this.node("Identity", [value], {}, name);
    this.outputs.push(valueInfo(name, dims));
  }

  floats(dims: readonly number[], values: ArrayLike<number>): string {
    const name = this.fresh();
    const data = Float32Array.from(values);
    this.initializers.push(tensor(name, dims, FLOAT, new Uint8Array(data.buffer)));
    return name;
  }

  wholes(values: readonly number[]): string {
    const name = this.fresh();
    const data = BigInt64Array.from(values, BigInt);
    this.initializers.push(tensor(name, [values.length], INT64, new Uint8Array(data.buffer)));
    return name;
  }

  /** @param attributes whole numbers, or lists of them */
  node(
    operator: string,
    inputs: readonly string[],
    attributes: Readonly<Record<string, number | readonly number[]>> = {},
    output = this.fresh(),
  ): string {
    const given = Object.entries(attributes).map(([name, value]) => {
      const [type, values] =
        typeof value === "number" ? [2, whole(3, value)] : [7, value.flatMap((one) => whole(8, one))];
      return sized(5, joined([text(1, name), values, whole(20, type)]));
    });
    this.nodes.push(
      joined([...inputs.map((one) => text(1, one)), text(2, output), text(4, operator), ...given]),
    );
    return output;
  }

  finish(): Uint8Array {
    const graph = joined([
      ...this.nodes.map((bytes) => sized(1, bytes)),
      text(2, "graph"),
      ...this.initializers.map((bytes) => sized(5, bytes)),
      ...this.inputs.map((bytes) => sized(11, bytes)),
      ...this.outputs.map((bytes) => sized(12, bytes)),
    ]);
    const operators = joined([text(1, ""), whole(2, OPERATORS_VERSION)]);
    return joined([whole(1, IR_VERSION), sized(7, graph), sized(8, operators)]);
  }

  private fresh(): string {
    this.count += 1;
    return `v${this.count}`;
  }
}
