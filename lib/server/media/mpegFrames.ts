/**
 * Frames of an MPEG audio stream (ISO/IEC 11172-3 and 13818-3), with the tags put around them: ID3v2
 * (id3.org, ID3v2.4.0), ID3v1, APEv2, and the count of frames in a Xing/Info or VBRI header.
 */
export interface MpegFrame {
  /** Offset of the header in the file. */
  at: number;
  byteCount: number;
  sampleRateHz: number;
  channelCount: 1 | 2;
  /** Samples of each channel. */
  sampleCount: number;
  /** Version and layer, by which frames of one stream are known to belong together. */
  kind: number;
}

const SAMPLE_RATES_HZ: readonly (readonly number[])[] = [
  [11_025, 12_000, 8_000], // MPEG 2.5
  [],
  [22_050, 24_000, 16_000], // MPEG 2
  [44_100, 48_000, 32_000], // MPEG 1
];
/** Bit rates in kbit/s by table; index 0 (free format) and 15 are not taken. */
const BIT_RATES = {
  v1l1: [0, 32, 64, 96, 128, 160, 192, 224, 256, 288, 320, 352, 384, 416, 448],
  v1l2: [0, 32, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320, 384],
  v1l3: [0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320],
  v2l1: [0, 32, 48, 56, 64, 80, 96, 112, 128, 144, 160, 176, 192, 224, 256],
  v2l23: [0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160],
} as const;

/** Reads the header at an offset; null where there is none. */
export function readFrame(file: Uint8Array, at: number): MpegFrame | null {
  if (at + 4 > file.length || file[at] !== 0xff || (file[at + 1]! & 0xe0) !== 0xe0) return null;
  const version = (file[at + 1]! >> 3) & 3;
  const layer = 4 - ((file[at + 1]! >> 1) & 3);
  const sampleRateHz = SAMPLE_RATES_HZ[version]![(file[at + 2]! >> 2) & 3];
  if (layer === 4 || sampleRateHz === undefined) return null;
  const table =
    version === 3
      ? ([BIT_RATES.v1l1, BIT_RATES.v1l2, BIT_RATES.v1l3] as const)[layer - 1]!
      : layer === 1
        ? BIT_RATES.v2l1
        : BIT_RATES.v2l23;
  const bitRate = (table[file[at + 2]! >> 4] ?? 0) * 1000;
  if (bitRate === 0) return null;
  const padding = (file[at + 2]! >> 1) & 1;
  const sampleCount = layer === 1 ? 384 : layer === 3 && version !== 3 ? 576 : 1152;
  const byteCount =
    layer === 1
      ? (Math.floor((12 * bitRate) / sampleRateHz) + padding) * 4
      : Math.floor(((sampleCount / 8) * bitRate) / sampleRateHz) + padding;
  const channelCount = file[at + 3]! >> 6 === 3 ? 1 : 2;
  return { at, byteCount, sampleRateHz, channelCount, sampleCount, kind: version * 8 + layer };
}

function belongTogether(a: MpegFrame, b: MpegFrame): boolean {
  return a.kind === b.kind && a.sampleRateHz === b.sampleRateHz;
}

/** Offset behind the ID3v2 tags at the beginning of a file; 0 where there are none. */
export function skipId3v2(file: Uint8Array): number {
  let at = 0;
  while (file[at] === 0x49 && file[at + 1] === 0x44 && file[at + 2] === 0x33 && at + 10 <= file.length) {
    const footer = (file[at + 5]! & 0x10) !== 0 ? 10 : 0;
    // Four bytes of seven bits each.
    const size = (file[at + 6]! << 21) | (file[at + 7]! << 14) | (file[at + 8]! << 7) | file[at + 9]!;
    at += 10 + size + footer;
  }
  return Math.min(at, file.length);
}

/** How far junk may stand before the first frame, in bytes. */
const SEARCH_BYTES = 65_536;
/** Frames that must follow one another before a sync word is believed. */
const CHAIN = 4;

/** The first frame of a chain of frames; null where the file is no MPEG audio. */
export function findFirstFrame(file: Uint8Array): MpegFrame | null {
  const from = skipId3v2(file);
  const to = Math.min(file.length, from + SEARCH_BYTES);
  for (let at = from; at < to; at++) {
    if (file[at] !== 0xff) continue;
    const first = readFrame(file, at);
    if (first && isChain(file, first)) return first;
  }
  return null;
}

function isChain(file: Uint8Array, first: MpegFrame): boolean {
  let frame = first;
  for (let count = 1; count < CHAIN; count++) {
    const next = frame.at + frame.byteCount;
    // A short file may end before the chain is long enough: one whole frame and its end must then fit.
    if (next === file.length || isTrailingTag(file, next)) return true;
    const following = readFrame(file, next);
    if (!following || !belongTogether(first, following)) return false;
    frame = following;
  }
  return true;
}

/** ID3v1 (128 bytes, "TAG"), APEv2 ("APETAGEX") or Lyrics3 ("LYRICSBEGIN") at an offset. */
function isTrailingTag(file: Uint8Array, at: number): boolean {
  const is = (text: string) => [...text].every((letter, i) => file[at + i] === letter.charCodeAt(0));
  return is("TAG") || is("APETAGEX") || is("LYRICSBEGIN");
}

export interface MpegWalk {
  /** Whole frames, in order, without the Xing, Info or VBRI frame. */
  frames: MpegFrame[];
  /** The frame that holds the Xing, Info or VBRI header. */
  headerFrame: MpegFrame | null;
  /** Frames that the header promises. */
  promisedFrames: number | null;
  /** The file ends within a frame. */
  endsWithinFrame: boolean;
}

/** Walks all frames of a file, skipping junk between them. */
export function walkFrames(file: Uint8Array, first: MpegFrame): MpegWalk {
  const promisedFrames = readPromise(file, first);
  const walk: MpegWalk = {
    frames: [],
    headerFrame: promisedFrames === null ? null : first,
    promisedFrames: promisedFrames === 0 ? null : promisedFrames,
    endsWithinFrame: false,
  };
  let at = promisedFrames === null ? first.at : first.at + first.byteCount;
  while (at + 4 <= file.length && !isTrailingTag(file, at)) {
    const frame = readFrame(file, at);
    if (!frame || !belongTogether(first, frame)) {
      at += 1;
      continue;
    }
    if (at + frame.byteCount > file.length) {
      walk.endsWithinFrame = true;
      break;
    }
    walk.frames.push(frame);
    at += frame.byteCount;
  }
  return walk;
}

/** Frames that a Xing, Info or VBRI header promises; 0 where it names none, null where there is no header. */
function readPromise(file: Uint8Array, first: MpegFrame): number | null {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const is = (at: number, text: string) =>
    [...text].every((letter, i) => file[at + i] === letter.charCodeAt(0));
  const isMpeg1 = first.kind >> 3 === 3;
  const sideInfo = isMpeg1 ? (first.channelCount === 1 ? 17 : 32) : first.channelCount === 1 ? 9 : 17;
  const xing = first.at + 4 + sideInfo;
  if (is(xing, "Xing") || is(xing, "Info")) {
    if (xing + 12 > file.length) return 0;
    const hasFrames = (view.getUint32(xing + 4) & 1) !== 0;
    return hasFrames ? view.getUint32(xing + 8) : 0;
  }
  const vbri = first.at + 36;
  if (is(vbri, "VBRI")) return vbri + 18 <= file.length ? view.getUint32(vbri + 14) : 0;
  return null;
}
