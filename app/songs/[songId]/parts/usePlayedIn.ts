import { useEffect, useRef } from "react";
import type { PlayedIn } from "@/lib/client/entry/NoteEntry";
import { midiToName } from "@/lib/theory/spelling";
import type { Midi, Seconds } from "@/lib/units/quantities";
import type { Desk } from "./DeskContext";
import { guessActs } from "./guessActs";
import { keyAt } from "./selection";

/** Keys struck together sound together: the sound waits this long for the rest of them. */
const TOGETHER_MS = 30;
/** How long a key that was struck is heard, and how loud beside the record. */
const SOUNDS_SEC: Seconds = 1.2;
const LOUDNESS = 0.35;

/** Names notes that are played in on the bench, so that their places show at once; keys also sound, softly. */
export function usePlayedIn(desk: Desk): void {
  const now = useRef(desk);
  now.current = desk;
  const { entry, sounder } = desk;
  entry.hearer = desk.hearer;
  entry.tuningCents = desk.opened.song.tuning?.tuningCents ?? 0;

  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    entry.onPlayed = (played: PlayedIn) => {
      if (!guessActs(now.current).takePlayed(played.midis)) nameOnBench(now.current, played.midis);
      // The microphone hears an instrument that sounds by itself, and would hear this too.
      if (!played.isStruck || played.by === "microphone") return;
      clearTimeout(timer);
      timer = setTimeout(() => sound(now.current, played.midis), TOGETHER_MS);
    };
    return () => {
      clearTimeout(timer);
      entry.onPlayed = null;
      sounder.stop();
    };
  }, [entry, sounder]);
}

function nameOnBench(
  { opened, selection, laidOut, layOut, nameOnBench }: Desk,
  midis: readonly Midi[],
): void {
  const timeSec = selection?.kind === "caret" ? selection.caret.timeSec : 0;
  const key = keyAt(opened.song, timeSec);
  if (laidOut) layOut(null);
  nameOnBench(
    [...midis]
      .reverse()
      .map((midi) => midiToName(midi, key))
      .join(" "),
  );
}

/** In tune with the record, mixed in before its ceiling, so that it may play on. */
function sound({ player, sounder, entry, say }: Desk, midis: readonly Midi[]): void {
  const notes = midis.map((midi) => ({ startSec: 0, endSec: SOUNDS_SEC, midi, glides: [] }));
  sounder
    .sound(
      notes,
      entry.tuningCents + player.now().shiftCents,
      LOUDNESS * player.now().level,
      player.openOutput().beside,
    )
    .catch(() => say("This browser will not play sound of its own now. Click on the page and try again."));
}
