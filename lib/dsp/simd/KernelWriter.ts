import { I32, type KernelFunction, signed, unsigned, V128 } from "./wasmModule";

/** Number of a parameter or local of the function being written. */
export type Local = number;

const BLOCK_WITHOUT_VALUE = 0x40;
/** Loads and stores name the alignment they expect; 4 bytes is what single floats have. */
const ALIGN_4 = 2;

/**
 * Writes one function, instruction by instruction (WebAssembly Core Specification 2.0, section 5.4; the vector
 * instructions stand in 5.4.9). Methods push what they need on the operand stack in the order of their
 * arguments.
 */
export class KernelWriter {
  private readonly bytes: number[] = [];
  private readonly locals: (typeof I32 | typeof V128)[] = [];
  private readonly parameterCount: number;
  private readonly name: string;

  constructor(name: string, parameterCount: number) {
    this.name = name;
    this.parameterCount = parameterCount;
  }

  function(): KernelFunction {
    const { name, parameterCount, locals, bytes } = this;
    return { name, parameterCount, locals, code: bytes };
  }

  whole(): Local {
    return this.local(I32);
  }

  /** A local of four single floats. */
  vector(): Local {
    return this.local(V128);
  }

  get(local: Local): this {
    return this.put(0x20, ...unsigned(local));
  }

  set(local: Local): this {
    return this.put(0x21, ...unsigned(local));
  }

  constant(value: number): this {
    return this.put(0x41, ...signed(value));
  }

  copy(to: Local, from: Local): this {
    return this.get(from).set(to);
  }

  /** to = a + b, whole numbers. */
  sum(to: Local, a: Local, b: Local): this {
    return this.get(a).get(b).put(0x6a).set(to);
  }

  /** local += value, a whole number. */
  step(local: Local, value: number): this {
    return this.get(local).constant(value).put(0x6a).set(local);
  }

  /** Runs `body` as long as local >= least (unsigned), tested before each round. */
  whileAtLeast(local: Local, least: number, body: () => void): this {
    this.put(0x02, BLOCK_WITHOUT_VALUE, 0x03, BLOCK_WITHOUT_VALUE);
    this.get(local).constant(least).put(0x49, 0x0d, 1);
    body();
    return this.put(0x0c, 0, 0x0b, 0x0b);
  }

  /** Runs `body` and takes 1 off `local` until it is 0; it must begin above 0. */
  countDown(local: Local, body: () => void): this {
    this.put(0x03, BLOCK_WITHOUT_VALUE);
    body();
    return this.step(local, -1).get(local).put(0x0d, 0, 0x0b);
  }

  /** Runs `body` where a bit of `local` is set. */
  whereSet(local: Local, bit: number, body: () => void): this {
    this.get(local).constant(bit).put(0x71, 0x04, BLOCK_WITHOUT_VALUE);
    body();
    return this.put(0x0b);
  }

  /** Pushes the four floats at address + offset. */
  load(address: Local, offset: number): this {
    return this.get(address)
      .vectorOp(0x00)
      .put(ALIGN_4, ...unsigned(offset));
  }

  /** Pushes the whole number at address + offset. */
  loadWhole(address: Local, offset: number): this {
    return this.get(address).put(0x28, ALIGN_4, ...unsigned(offset));
  }

  /** Pushes the float at address + offset, four times. */
  loadSplat(address: Local, offset: number): this {
    return this.get(address)
      .vectorOp(0x09)
      .put(ALIGN_4, ...unsigned(offset));
  }

  store(address: Local, offset: number, value: Local): this {
    return this.get(address)
      .get(value)
      .vectorOp(0x0b)
      .put(ALIGN_4, ...unsigned(offset));
  }

  /** Stores the first of four floats. */
  storeFirst(address: Local, offset: number, value: Local): this {
    return this.get(address)
      .get(value)
      .vectorOp(0x5a)
      .put(ALIGN_4, ...unsigned(offset), 0);
  }

  zeros(): this {
    return this.vectorOp(0x0c).put(...new Array<number>(16).fill(0));
  }

  /** Pushes a number four times. */
  fourTimes(value: number): this {
    const bytes = [...new Uint8Array(Float32Array.of(value, value, value, value).buffer)];
    return this.vectorOp(0x0c).put(...bytes);
  }

  /** Pushes a whole number of 32 bits four times. */
  fourTimesWhole(value: number): this {
    const bytes = [...new Uint8Array(Int32Array.of(value, value, value, value).buffer)];
    return this.vectorOp(0x0c).put(...bytes);
  }

  add(): this {
    return this.vectorOp(0xe4);
  }

  subtract(): this {
    return this.vectorOp(0xe5);
  }

  multiply(): this {
    return this.vectorOp(0xe6);
  }

  divide(): this {
    return this.vectorOp(0xe7);
  }

  absolute(): this {
    return this.vectorOp(0xe0);
  }

  squareRoot(): this {
    return this.vectorOp(0xe3);
  }

  /** All bits of a place set where the first is greater, else none. */
  greater(): this {
    return this.vectorOp(0x44);
  }

  /** Bits of the first where those of the third are set, else of the second. */
  chooseBits(): this {
    return this.vectorOp(0x52);
  }

  /** to = a + b, a - b, a b, four floats each. */
  added(to: Local, a: Local, b: Local): this {
    return this.get(a).get(b).add().set(to);
  }

  subtracted(to: Local, a: Local, b: Local): this {
    return this.get(a).get(b).subtract().set(to);
  }

  multiplied(to: Local, a: Local, b: Local): this {
    return this.get(a).get(b).multiply().set(to);
  }

  /** to = the named floats of a (0 to 3) and of b (4 to 7). */
  picked(to: Local, a: Local, b: Local, places: readonly [number, number, number, number]): this {
    const bytes = places.flatMap((place) => [0, 1, 2, 3].map((byte) => 4 * place + byte));
    return this.get(a)
      .get(b)
      .vectorOp(0x0d)
      .put(...bytes)
      .set(to);
  }

  /** Puts rows where columns were: four vectors of four; four others are written over. */
  transposed(x: readonly Local[], spare: readonly Local[]): this {
    const [a, b, c, d] = x as [Local, Local, Local, Local];
    const [p, q, r, s] = spare as [Local, Local, Local, Local];
    this.picked(p, a, b, [0, 4, 1, 5]).picked(q, c, d, [0, 4, 1, 5]);
    this.picked(r, a, b, [2, 6, 3, 7]).picked(s, c, d, [2, 6, 3, 7]);
    this.picked(a, p, q, [0, 1, 4, 5]).picked(b, p, q, [2, 3, 6, 7]);
    return this.picked(c, r, s, [0, 1, 4, 5]).picked(d, r, s, [2, 3, 6, 7]);
  }

  /** Four whole numbers of 32 bits, each the sum of two products of neighbours among eight and eight others of 16 bits. */
  multiplyPairs(): this {
    return this.vectorOp(0xba);
  }

  /** Eight whole numbers of 16 bits from four and four others of 32, kept within bounds. */
  narrow(): this {
    return this.vectorOp(0x85);
  }

  /** Four whole numbers and four others. */
  addWholes(): this {
    return this.vectorOp(0xae);
  }

  /** Four whole numbers less four others. */
  subtractWholes(): this {
    return this.vectorOp(0xb1);
  }

  /** Shifts four whole numbers by so many bits: left, or right with the sign kept. */
  shiftLeft(bits: number): this {
    return this.constant(bits).vectorOp(0xab);
  }

  shiftRight(bits: number): this {
    return this.constant(bits).vectorOp(0xac);
  }

  /** Four whole numbers as floats. */
  toFloats(): this {
    return this.vectorOp(0xfa);
  }

  /** The larger of two, as a comparison picks it. */
  larger(): this {
    return this.vectorOp(0xeb);
  }

  private local(type: typeof I32 | typeof V128): Local {
    this.locals.push(type);
    return this.parameterCount + this.locals.length - 1;
  }

  private vectorOp(code: number): this {
    return this.put(0xfd, ...unsigned(code));
  }

  private put(...bytes: number[]): this {
    for (const byte of bytes) this.bytes.push(byte);
    return this;
  }
}
