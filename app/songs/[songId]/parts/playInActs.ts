import type { Desk } from "./DeskContext";

/** Listens to a MIDI keyboard or to the microphone, or stops; to one at a time, so that neither hears the other. */
export function togglePlayIn(
  { entry, layOut }: Pick<Desk, "entry" | "layOut">,
  by: "keyboards" | "microphone",
): void {
  const isOff = entry[by].now().state === "off";
  entry.close();
  if (!isOff) return;
  // A passage on the bench makes room for the notes that are to come.
  layOut(null);
  void entry[by].open();
}
