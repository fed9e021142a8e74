import type { WeightsManifest } from "@/lib/hearing/learned/loadWeights";

/**
 * The networks of this house's ear as `GET /api/ear` lists them, by the names of their files: what stands beside each
 * file of weights. `GET /api/ear/:sha256` gives the weights themselves, which never change under that name.
 */
export type EarListing = Readonly<Record<string, WeightsManifest>>;

export const EAR_WEIGHTS_MEDIA_TYPE = "application/octet-stream";
