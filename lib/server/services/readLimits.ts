import type { UploadLimits } from "@/lib/contracts/uploads";
import type { Config } from "../config/config";
import { findFfmpeg } from "../media/findFfmpeg";

/** What the upload form must know before it sends anything. */
export async function readLimits(
  config: Pick<Config, "maxUploadBytes" | "maxDurationSec" | "ffmpeg">,
): Promise<UploadLimits> {
  return {
    maxBytes: config.maxUploadBytes,
    maxDurationSec: config.maxDurationSec,
    readsEverything: (await findFfmpeg(config.ffmpeg)) !== null,
  };
}
