import { PlacesAnswerer } from "./PlacesAnswerer";
import type { PlacesMessage, PlacesWord } from "./placesMessages";

/** The body of the worker that finds places: one order after another. */
const answerer = new PlacesAnswerer();
const say = (word: PlacesWord): void => self.postMessage(word);

self.onmessage = ({ data }: MessageEvent<PlacesMessage>) => {
  if (data.kind === "warm") goOn(answerer.warmUp(data.copedent));
  else say(answerer.answer(data, (fraction) => say({ kind: "progress", fraction })));
};

/** A round at a time: what is asked meanwhile is answered between two of them. */
function goOn(rounds: Iterator<void>): void {
  setTimeout(() => {
    if (!rounds.next().done) goOn(rounds);
  });
}
