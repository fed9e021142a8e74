import { type HeldLocks, lockTags } from "@/lib/client/places/HeldLocks";
import { stoppedPitches } from "@/lib/instrument/effectivePitch";
import { benchLocks } from "./benchLocks";
import type { Desk } from "./DeskContext";
import { partActs } from "./partActs";

/** Locks by a key, about what lies at the caret; each lets off what it holds already. */
export function lockActs(desk: Desk) {
  const { copedent, say } = desk;
  const { caret, event } = partActs(desk);
  const { held } = benchLocks.now();

  function hold(next: HeldLocks) {
    benchLocks.hold(next);
    const words = lockTags(next, copedent).map((tag) => tag.words);
    say(words.length === 0 ? "Nothing is locked." : `Locked: ${words.join("; ")}.`);
  }

  return {
    /** The caret's string for the note that it sounds there. */
    string() {
      const at = event && caret ? event.strings.indexOf(caret.string) : -1;
      const midi = event ? stoppedPitches(copedent, event)[at] : null;
      if (at < 0 || midi === null || midi === undefined || !caret) {
        say("Nothing sounds on this string here, so there is nothing to lock it for.");
        return;
      }
      const others = held.strings.filter((each) => each.midi !== midi);
      const isHeld = others.length < held.strings.length;
      hold({ ...held, strings: isHeld ? others : [...others, { midi, string: caret.string }] });
    },
    /** The fret of the event at the caret. */
    fret() {
      if (held.frets) hold({ ...held, frets: null });
      else if (event) hold({ ...held, frets: { from: event.fret, to: event.fret } });
      else say("No event begins here, so there is no fret to lock.");
    },
    /** Pedals up, down, free, in turn. */
    pedals() {
      if (copedent.changes.length === 0) say(`${copedent.name} has no pedals.`);
      else {
        const next = held.pedals === null ? "up" : held.pedals === "up" ? "down" : null;
        hold({ ...held, pedals: next });
      }
    },
    /** All of them, on the bench. */
    open() {
      benchLocks.open(true);
    },
  };
}
