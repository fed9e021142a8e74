import { useEffect, useRef } from "react";
import { keepInView, scrollAxis, zoomAxis } from "@/lib/client/axis/timeAxis";
import { placeFinder } from "@/lib/client/places/PlaceFinder";
import { askedActs } from "./askedActs";
import type { Desk } from "./DeskContext";
import { eventsActs } from "./eventsActs";
import { fitActs } from "./fitActs";
import { guessActs } from "./guessActs";
import { hearAtOnce } from "./hearAtOnce";
import { isHeldOn } from "./heldKeys";
import { isOnButton, isTyping } from "./keyTarget";
import { onLane } from "./laneKeys";
import { withClip } from "./laterClip";
import { onListeningKey } from "./listeningActs";
import type { PartTyping } from "./partKeys";
import { partsActs } from "./partsActs";
import { togglePlayIn } from "./playInActs";
import { recordActs } from "./recordActs";
import { selectedSpan } from "./selection";
import { snapWhat } from "./snapWords";
import { soundActs } from "./soundActs";
import { studyActs } from "./studyActs";
import { loopAtHand, loopSelection } from "./transportActs";

const ZOOM_STEP = 1.4;
const SPEED_STEP = 0.05;
/** How much of the view one page turns. */
const PAGE_SHARE = 0.8;

/** All keys of the song page (KeysDialog shows them). Nothing is taken from fields that are being typed in. */
export function useDeskKeys(desk: Desk | null, openKeys: () => void): void {
  const now = useRef({ desk, openKeys });
  now.current = { desk, openKeys };
  const typedFret = useRef<PartTyping>({ text: "", atMs: 0, triedFrom: null });
  /** The key whose press was taken; held on, it is kept from the browser too (Space would scroll). */
  const taken = useRef<string>(null);

  useEffect(() => {
    function onKeyDown(event: KeyboardEvent) {
      const { desk, openKeys } = now.current;
      if (!desk || event.defaultPrevented || isTyping(event.target)) return;
      if (isHeldOn(event)) {
        // A browser presses a button again and again while Enter is held on it.
        const isButtons = event.key === "Enter" && isOnButton(event);
        if (event.code === taken.current || isButtons) event.preventDefault();
        return;
      }
      if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "a") {
        event.preventDefault();
        eventsActs(desk).all();
        return;
      }
      if (event.ctrlKey || event.metaKey) {
        if (event.key.toLowerCase() !== "z" && event.key.toLowerCase() !== "y") return;
        const again = event.shiftKey || event.key.toLowerCase() === "y";
        event.preventDefault();
        if (again) desk.opened.acts.doAgain();
        else desk.opened.acts.takeBack();
        return;
      }
      const wasTaken = onEverywhere(desk, event, openKeys) || onLane(desk, event, typedFret.current);
      taken.current = wasTaken ? event.code : null;
      if (wasTaken) event.preventDefault();
    }
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, []);
}

/** All lanes snap to the next kind of times. */
function nextSnap({ snap, say }: Desk): void {
  const next = snap.next();
  say(next === "off" ? "Nothing snaps now." : `All lanes snap to ${snapWhat(next)} now.`);
}

/** @returns whether a chord was being tried */
function dropTriedChord({ triedChord, setTriedChord, say }: Desk): boolean {
  setTriedChord(null);
  if (triedChord !== null) say(null);
  return triedChord !== null;
}

function isInPart({ selection }: Desk): boolean {
  return selection?.kind === "caret" || selection?.kind === "events";
}

function onEverywhere(desk: Desk, event: KeyboardEvent, openKeys: () => void): boolean {
  const { player, axis, select } = desk;
  if (onListeningKey(desk, event)) return true;
  // What stands there is stretched at once; a new drawing of a long song takes longer than a key may.
  const zoom = (factor: number) => axis.glide((now) => zoomAxis(now, factor, now.widthPx / 2));
  switch (event.key) {
    case " ":
      if (isOnButton(event)) return false;
      player.toggle();
      return true;
    case "?":
      openKeys();
      return true;
    case "+":
    case "=":
      zoom(ZOOM_STEP);
      return true;
    case "-":
      zoom(1 / ZOOM_STEP);
      return true;
    case ",":
    case ".": {
      player.setSpeed(player.now().speed + (event.key === "," ? -SPEED_STEP : SPEED_STEP));
      return true;
    }
    case "l":
    case "L":
      if (event.shiftKey) loopAtHand(desk);
      else loopSelection(desk);
      return true;
    case "p":
    case "P":
      if (!event.shiftKey || !desk.mayWrite) return false;
      studyActs(desk).make();
      return true;
    case "q":
    case "Q":
      if (event.shiftKey) {
        askedActs(desk).ask();
        return true;
      }
      if (!desk.mayWrite) return false;
      void hearAtOnce(desk);
      return true;
    case "F10":
      void recordActs(desk).record();
      return true;
    case "F4":
      if (desk.guessing) guessActs(desk).close();
      else guessActs(desk).open();
      return true;
    case "k":
    case "K":
      togglePlayIn(desk, event.shiftKey ? "microphone" : "keyboards");
      return true;
    case "y":
    case "Y":
      if (event.shiftKey) soundActs(desk).turnBeside();
      else soundActs(desk).nextListen();
      return true;
    case "(":
    case ")":
      soundActs(desk).shiftBalance(event.key === "(" ? -1 : 1);
      return true;
    case "u":
    case "U":
      soundActs(desk).toggleDrone();
      return true;
    case "j":
    case "J":
      soundActs(desk).toggleBand();
      return true;
    case "!":
      void fitActs(desk).check();
      return true;
    case ";":
    case ":":
      fitActs(desk).step(event.key === ";" ? 1 : -1);
      return true;
    case "i":
    case "I":
      desk.openTable(!desk.isTableOpen);
      return true;
    case "|":
      nextSnap(desk);
      return true;
    case "Home":
      player.seek(selectedSpan(desk.opened.song, desk.selection, desk.grid)?.startSec ?? 0);
      axis.change((now) => keepInView(now, player.timeSec, 60));
      return true;
    case "PageUp":
    case "PageDown":
      if (event.altKey && event.shiftKey) {
        if (!isInPart(desk)) return false;
        void withClip(desk, (clip) => clip.moveBeside(event.key === "PageUp" ? -1 : 1));
        return true;
      }
      if (event.altKey) {
        partsActs(desk).step(event.key === "PageUp" ? -1 : 1);
        return true;
      }
      if (event.shiftKey) {
        studyActs(desk).step(event.key === "PageUp" ? -1 : 1);
        return true;
      }
      axis.change((now) => scrollAxis(now, (event.key === "PageUp" ? -1 : 1) * now.widthPx * PAGE_SHARE));
      return true;
    case "Escape":
      if (recordActs(desk).cancel()) return true;
      if (desk.guessing) {
        guessActs(desk).close();
        return true;
      }
      if (
        !desk.taps.drop() &&
        !dropTriedChord(desk) &&
        !desk.hearer?.cancel() &&
        !desk.fit?.check.cancel() &&
        !placeFinder().cancel() &&
        !desk.trial.drop()
      ) {
        if (desk.selection?.kind === "events") eventsActs(desk).leave();
        else select(null);
      }
      return true;
    default:
      return false;
  }
}
