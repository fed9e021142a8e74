import { PlacesAnswerer } from "./PlacesAnswerer";
import type { PlacesOrder } from "./placesMessages";

/** The body of the worker that finds places: one order after another. */
const answerer = new PlacesAnswerer();

self.onmessage = ({ data }: MessageEvent<PlacesOrder>) => {
  self.postMessage(answerer.answer(data));
};
