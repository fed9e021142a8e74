import { MediaError } from "./MediaError";

/**
 * Pages of an Ogg stream (RFC 3533). The decoders skip what they cannot read; this tells a whole file from one
 * that is cut short or damaged.
 */
const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte << 24;
  for (let bit = 0; bit < 8; bit++) value = value & 0x80000000 ? (value << 1) ^ 0x04c11db7 : value << 1;
  return value;
});

const CRC_AT = 22;

/** The checksum of a page, reckoned with its own four bytes as zero. */
export function pageChecksum(page: Uint8Array): number {
  let crc = 0;
  for (let i = 0; i < page.length; i++) {
    const byte = i >= CRC_AT && i < CRC_AT + 4 ? 0 : page[i]!;
    crc = (crc << 8) ^ CRC_TABLE[((crc >>> 24) ^ byte) & 0xff]!;
  }
  return crc >>> 0;
}

/**
 * Checks every page of an Ogg file.
 * @returns the last granule position: for audio, the number of samples (of 48 kHz for Opus, with its pre-skip)
 * @throws {MediaError} cut-short where a page is not whole or a stream has no last page; damaged where a page's
 *   checksum is wrong or no page stands where one should
 */
export function checkOggPages(file: Uint8Array): { lastGranule: number } {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const open = new Set<number>();
  let lastGranule = 0;
  let at = 0;
  while (at < file.length) {
    if (!(at + 4 <= file.length && view.getUint32(at) === 0x4f676753)) {
      // Behind the last page of every stream stand only tags of players, if anything.
      if (open.size === 0 && at > 0) break;
      throw new MediaError(file.length - at < 27 ? "cut-short" : "damaged");
    }
    const segments = at + 27 <= file.length ? view.getUint8(at + 26) : 0;
    if (at + 27 + segments > file.length) throw new MediaError("cut-short");
    let end = at + 27 + segments;
    for (let i = 0; i < segments; i++) end += view.getUint8(at + 27 + i);
    if (end > file.length) throw new MediaError("cut-short");
    if (pageChecksum(file.subarray(at, end)) !== view.getUint32(at + CRC_AT, true))
      throw new MediaError("damaged");
    const flags = view.getUint8(at + 5);
    const stream = view.getUint32(at + 14, true);
    const granule = Number(view.getBigInt64(at + 6, true));
    if (granule > 0) lastGranule = granule;
    if ((flags & 4) !== 0) open.delete(stream);
    else open.add(stream);
    at = end;
  }
  if (open.size > 0) throw new MediaError("cut-short");
  return { lastGranule };
}
