import { laterActs } from "./laterActs";

/** What copying and pasting brings along: text tab and the search for places. */
export const {
  fetch: fetchClipActs,
  here: clipActsHere,
  with: withClip,
} = laterActs(() => import("./clipActs").then(({ clipActs }) => clipActs), "Copying and pasting");
