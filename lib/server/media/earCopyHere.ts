import { type DecodeHereOptions, decodeHere } from "./decode";
import { EarCopyFile } from "./EarCopyFile";
import { EarCopyMaker } from "./EarCopyMaker";

/**
 * Decodes a record in this thread and writes the copy that passages are heard from; see `makeEarCopy`.
 * @throws {MediaError}; RangeError where the record holds samples that are no numbers
 */
export async function earCopyHere(
  fromPath: string,
  toPath: string,
  options: DecodeHereOptions,
): Promise<{ frameCount: number }> {
  const file = new EarCopyFile(toPath);
  try {
    const maker = new EarCopyMaker(file);
    await decodeHere(fromPath, { ...options, receiver: maker });
    const { frameCount } = maker.finish();
    return { frameCount };
  } finally {
    file.close();
  }
}
