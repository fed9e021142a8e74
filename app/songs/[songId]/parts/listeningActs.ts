import { centsText, percentText } from "@/lib/client/format/format";
import type { ListeningSettings } from "@/lib/document/records/ListeningSettings";
import type { Desk } from "./DeskContext";
import { isOnButton } from "./keyTarget";
import { listeningPanel } from "./listeningPanel";
import { memoryWords, retuneText, semitonesText } from "./listeningWords";
import { selectedSpan } from "./selection";

/** How far back "the last seconds again" goes. */
export const AGAIN_SEC = 2;

/** What is done about listening, by key, button and field alike; says what it did where nothing else shows it. */
export function listeningActs(desk: Desk) {
  const { player, opened, selection, grid, say } = desk;

  function set(settings: Partial<ListeningSettings>): void {
    player.setListening(settings);
  }
  /** Says a pitch, and whether it is heard yet. */
  function sayPitch(): void {
    const { semitones, cents } = player.listening();
    const tuned = cents === 0 ? "" : `, retuned by ${retuneText(cents)}`;
    const later = player.now().memory.kind === "ready" ? "" : ` ${memoryWords(player.now().memory)}`;
    say(`The record is heard ${semitonesText(semitones)}${tuned}.${later}`);
  }

  return {
    set,
    /** By half steps. */
    move(semitones: -1 | 1) {
      set({ semitones: player.listening().semitones + semitones });
      sayPitch();
    },
    /** So that A is heard at 440 Hz, by the tuning that was measured. */
    toA440() {
      const tuning = opened.song.tuning;
      if (!tuning) {
        say("How far the record stands from A440 is not known yet.");
        return;
      }
      set({ cents: -tuning.tuningCents });
      say(`Retuned by ${centsText(-tuning.tuningCents)}: A is 440 Hz now.`);
    },
    toggleMute() {
      const isMuted = !player.now().isMuted;
      player.setMuted(isMuted);
      say(isMuted ? "The record is silent; what plays beside it is heard." : "The record is heard again.");
    },
    toggleClick() {
      const isClicking = !player.now().isClicking;
      if (isClicking && !grid) {
        say("The beats are not known yet, so there is nothing to click.");
        return;
      }
      player.setClicking(isClicking);
      say(isClicking ? "Each beat clicks." : "No clicks.");
    },
    /** The last seconds once more, also where the record stands. */
    again() {
      player.seek(player.timeSec - AGAIN_SEC);
      if (!player.now().isPlaying) void player.play();
    },
    /** From the caret or the start of the selection on, with what leads in; from the playhead where nothing is selected. */
    playFromSelection() {
      const caretSec = selection?.kind === "caret" ? selection.caret.timeSec : undefined;
      const startSec = caretSec ?? selectedSpan(opened.song, selection, grid)?.startSec;
      const { preRollSec } = player.listening();
      void player.playFrom(startSec === undefined ? player.timeSec : Math.max(0, startSec - preRollSec));
    },
    togglePanel() {
      listeningPanel.open(!listeningPanel.now().isOpen);
    },
    sayLadder() {
      const { ladder } = player.listening();
      say(
        ladder.isOn
          ? `The speed grows from ${percentText(ladder.startSpeed)} to ${percentText(ladder.endSpeed)} as the loop goes round.`
          : "The speed stays as it is.",
      );
    },
  };
}

/** Keys of listening. @returns whether the key was taken */
export function onListeningKey(desk: Desk, event: KeyboardEvent): boolean {
  const acts = listeningActs(desk);
  // By the place of the key too: with Alt it gives another sign on some keyboards.
  const [isLower, isHigher] = [
    event.key === "," || event.code === "Comma",
    event.key === "." || event.code === "Period",
  ];
  if (event.altKey && (isLower || isHigher)) {
    acts.move(isLower ? -1 : 1);
    return true;
  }
  if (event.shiftKey && event.key === " " && !isOnButton(event)) {
    acts.playFromSelection();
    return true;
  }
  switch (event.key) {
    case "F6":
      acts.again();
      return true;
    case "F7":
      acts.toggleClick();
      return true;
    case "F8":
      acts.togglePanel();
      return true;
    case "F9":
      acts.toggleMute();
      return true;
    default:
      return false;
  }
}
