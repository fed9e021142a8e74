/** Builds files of plain samples byte by byte, after the published formats and apart from the readers under test. */

export function bytesOf(...parts: (string | number[] | Uint8Array)[]): Uint8Array {
  return Uint8Array.from(
    parts.flatMap((part) => (typeof part === "string" ? [...part].map((c) => c.charCodeAt(0)) : [...part])),
  );
}

export function le(value: number, byteCount: number): number[] {
  return Array.from({ length: byteCount }, (_, i) => Math.floor(value / 256 ** i) % 256);
}

export function be(value: number, byteCount: number): number[] {
  return le(value, byteCount).reverse();
}

/** A chunk of RIFF (little-endian size) with its padding byte. */
export function riffChunk(id: string, body: Uint8Array, claimed: number = body.length): Uint8Array {
  return bytesOf(id, le(claimed, 4), body, body.length % 2 === 1 ? [0] : []);
}

/** A chunk of IFF (big-endian size) with its padding byte. */
export function iffChunk(id: string, body: Uint8Array, claimed: number = body.length): Uint8Array {
  return bytesOf(id, be(claimed, 4), body, body.length % 2 === 1 ? [0] : []);
}

export function riff(...chunks: Uint8Array[]): Uint8Array {
  const body = bytesOf("WAVE", ...chunks);
  return bytesOf("RIFF", le(body.length, 4), body);
}

export function aiff(kind: "AIFF" | "AIFC", ...chunks: Uint8Array[]): Uint8Array {
  const body = bytesOf(kind, ...chunks);
  return bytesOf("FORM", be(body.length, 4), body);
}

/** The format chunk's body: tag, channels, rate, bytes a second, bytes a frame, bits. */
export function wavFormat(tag: number, channels: number, rateHz: number, bits: number): Uint8Array {
  const frame = (channels * bits) / 8;
  return bytesOf(
    le(tag, 2),
    le(channels, 2),
    le(rateHz, 4),
    le(rateHz * frame, 4),
    le(frame, 2),
    le(bits, 2),
  );
}

/** 44100 as an 80-bit extended number, as it stands in every AIFF file of that rate. */
export const EXTENDED_44100 = [0x40, 0x0e, 0xac, 0x44, 0, 0, 0, 0, 0, 0];

export function commonChunk(
  channels: number,
  frames: number,
  bits: number,
  compression?: string,
): Uint8Array {
  const name = compression ? [compression, [0, 0]] : [];
  return iffChunk("COMM", bytesOf(be(channels, 2), be(frames, 4), be(bits, 2), EXTENDED_44100, ...name));
}

export function soundChunk(samples: Uint8Array, claimed?: number): Uint8Array {
  const body = bytesOf(be(0, 4), be(0, 4), samples);
  return iffChunk("SSND", body, claimed === undefined ? body.length : claimed + 8);
}

/** A sine as 16-bit samples, little-endian. */
export function sine16(frames: number, frequencyHz: number, level: number, rateHz = 44_100): Uint8Array {
  const view = new DataView(new ArrayBuffer(2 * frames));
  for (let i = 0; i < frames; i++) {
    view.setInt16(
      2 * i,
      Math.round(32_767 * level * Math.sin((2 * Math.PI * frequencyHz * i) / rateHz)),
      true,
    );
  }
  return new Uint8Array(view.buffer);
}

/** A whole mono WAV file of 16 bits. */
export function sineWav(seconds: number, level: number, frequencyHz = 440): Uint8Array {
  const samples = sine16(Math.round(seconds * 44_100), frequencyHz, level);
  return riff(riffChunk("fmt ", wavFormat(1, 1, 44_100, 16)), riffChunk("data", samples));
}
