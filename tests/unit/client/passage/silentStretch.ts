import type { RecordStretch } from "@/lib/client/record/RecordStretch";

/** A stretch of a record in which nothing sounds, for workers that are only told to listen. */
export const SILENT_STRETCH: RecordStretch = {
  sampleRateHz: 22_050,
  startFrame: 0,
  level: 0.1,
  sideLevel: 0,
  mid: new Float32Array(8),
  side: null,
};
