/** By this type the clipboard tells our own form of a clip (PartClip.ts) from others. */
export const CLIP_TYPE = "application/x-liftbook-part+json";
