/**
 * Just enough of the binary format of WebAssembly (W3C, "WebAssembly Core Specification" 2.0, section 5) to write
 * a module of a few functions over one imported memory.
 */

/** Value types (specification 5.3.1, 5.3.2). */
export const I32 = 0x7f;
export const V128 = 0x7b;
type ValueType = typeof I32 | typeof V128;

/** Unsigned LEB128 (specification 5.2.2). */
export function unsigned(value: number): number[] {
  const bytes: number[] = [];
  let rest = value;
  do {
    const low = rest & 0x7f;
    rest >>>= 7;
    bytes.push(rest === 0 ? low : low | 0x80);
  } while (rest !== 0);
  return bytes;
}

/** Signed LEB128 (specification 5.2.2). */
export function signed(value: number): number[] {
  const bytes: number[] = [];
  let rest = value;
  for (;;) {
    const low = rest & 0x7f;
    rest >>= 7;
    if ((rest === 0 && (low & 0x40) === 0) || (rest === -1 && (low & 0x40) !== 0)) {
      bytes.push(low);
      return bytes;
    }
    bytes.push(low | 0x80);
  }
}

function vector(parts: number[][]): number[] {
  return [...unsigned(parts.length), ...parts.flat()];
}

function sized(bytes: number[]): number[] {
  return [...unsigned(bytes.length), ...bytes];
}

function named(name: string): number[] {
  return sized(Array.from(name, (letter) => letter.charCodeAt(0)));
}

/** A function that takes whole numbers and gives nothing; parameters are its first locals. */
export interface KernelFunction {
  name: string;
  parameterCount: number;
  /** Types of the locals after the parameters. */
  locals: readonly ValueType[];
  /** Instructions, without the final end. */
  code: readonly number[];
}

/** Bytes of a module that imports `env.memory` and exports each function under its name. */
export function moduleBytes(functions: readonly KernelFunction[]): Uint8Array<ArrayBuffer> {
  const section = (id: number, parts: number[][]): number[] => [id, ...sized(vector(parts))];
  const types = functions.map(({ parameterCount }) => [
    0x60,
    ...vector(Array.from({ length: parameterCount }, () => [I32])),
    ...vector([]),
  ]);
  const memory = [...named("env"), ...named("memory"), 0x02, 0x00, ...unsigned(1)];
  const bodies = functions.map(({ locals, code }) =>
    sized([...vector(locals.map((type) => [...unsigned(1), type])), ...code, 0x0b]),
  );
  return Uint8Array.from([
    ...[0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00],
    ...section(1, types),
    ...section(2, [memory]),
    ...section(
      3,
      functions.map((_, index) => unsigned(index)),
    ),
    ...section(
      7,
      functions.map(({ name }, index) => [...named(name), 0x00, ...unsigned(index)]),
    ),
    ...section(10, bodies),
  ]);
}
