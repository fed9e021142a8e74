import type { DecodedAudio } from "./DecodedAudio";
import { type Declared, falsePromise } from "./declaredType";
import { type DecodeHereOptions, decodeHere } from "./decode";
import { formatOf } from "./formats";
import { PeakMeter, SILENCE_DBFS, toDbfs } from "./level";
import { MediaError } from "./MediaError";
import type { RecordFacts } from "./RecordFacts";

/** Samples that browsers play in WAV: integers of up to 32 bits, floats of 32. */
function isPlayable({ format, bitsPerSample, container }: DecodedAudio): boolean {
  if (format === "wav") return container === "wav" && (bitsPerSample ?? 64) <= 32;
  return formatOf(format).playableInBrowsers;
}

/**
 * Decodes a record in this thread and checks it; see `inspectRecord`.
 * @throws {MediaError}
 */
export async function inspectHere(
  path: string,
  declared: Declared,
  options: DecodeHereOptions,
): Promise<RecordFacts> {
  const meter = new PeakMeter();
  const audio = await decodeHere(path, { ...options, receiver: meter });
  const promised = falsePromise(declared, audio.format);
  if (promised !== null) {
    throw new MediaError("wrong-type", { declared: promised, found: formatOf(audio.format).words });
  }
  const peakDbfs = toDbfs(meter.peak);
  if (peakDbfs < SILENCE_DBFS) throw new MediaError("silent");
  return {
    durationSec: audio.durationSec,
    channelCount: audio.sourceChannelCount,
    sampleRateHz: audio.sampleRateHz,
    peakDbfs,
    container: audio.container,
    format: audio.format,
    mediaType: audio.mediaType,
    playableInBrowsers: isPlayable(audio),
    bitsPerSample: audio.bitsPerSample,
  };
}
