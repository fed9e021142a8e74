import { useEffect, useRef } from "react";
import { snapToBeat, stepBeat } from "@/lib/client/axis/songGrid";
import { keepInView, scrollAxis, zoomAxis } from "@/lib/client/axis/timeAxis";
import { SPEEDS } from "@/lib/client/player/Player";
import { changeActs } from "./changeActs";
import type { Desk } from "./DeskContext";
import { partActs } from "./partActs";
import { selectedSpan } from "./selection";
import { loopSelection } from "./transportActs";

/** Digits typed within this time belong to one fret. */
const DIGITS_TOGETHER_MS = 1200;
const ZOOM_STEP = 1.4;
const SPEED_STEP = 0.05;
/** How much of the view one page turns. */
const PAGE_SHARE = 0.8;

/** All keys of the song page (KeysDialog shows them). Nothing is taken from fields that are being typed in. */
export function useDeskKeys(desk: Desk | null, openKeys: () => void): void {
  const now = useRef({ desk, openKeys });
  now.current = { desk, openKeys };
  const typedFret = useRef({ text: "", atMs: 0 });

  useEffect(() => {
    function onKeyDown(event: KeyboardEvent) {
      const { desk, openKeys } = now.current;
      if (!desk || event.defaultPrevented || isTyping(event.target)) return;
      if (event.ctrlKey || event.metaKey) {
        if (event.key.toLowerCase() !== "z" && event.key.toLowerCase() !== "y") return;
        const again = event.shiftKey || event.key.toLowerCase() === "y";
        event.preventDefault();
        if (again) desk.opened.acts.doAgain();
        else desk.opened.acts.takeBack();
        return;
      }
      const wasTaken =
        onEverywhere(desk, event, openKeys) ||
        (desk.selection?.kind === "caret" ? onPart(desk, event, typedFret.current) : onChanges(desk, event));
      if (wasTaken) event.preventDefault();
    }
    window.addEventListener("keydown", onKeyDown);
    return () => window.removeEventListener("keydown", onKeyDown);
  }, []);
}

function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  return (
    target.isContentEditable ||
    /^(INPUT|SELECT|TEXTAREA)$/.test(target.tagName) ||
    target.closest("dialog") !== null
  );
}

/** Space and Enter on a button are that button's own. */
function isOnButton({ target }: KeyboardEvent): boolean {
  return (
    target instanceof HTMLElement &&
    target.closest("button, a, summary") !== null &&
    !target.matches("[data-change]")
  );
}

function onEverywhere(desk: Desk, event: KeyboardEvent, openKeys: () => void): boolean {
  const { player, axis, select } = desk;
  const zoom = (factor: number) => axis.change((now) => zoomAxis(now, factor, now.widthPx / 2));
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
      const { speed } = player.now();
      const next = speed + (event.key === "," ? -SPEED_STEP : SPEED_STEP);
      player.setSpeed(Math.min(SPEEDS.fastest, Math.max(SPEEDS.slowest, next)));
      return true;
    }
    case "l":
    case "L":
      loopSelection(desk);
      return true;
    case "Home":
      player.seek(selectedSpan(desk.opened.song, desk.selection, desk.grid)?.startSec ?? 0);
      axis.change((now) => keepInView(now, player.timeSec, 60));
      return true;
    case "PageUp":
    case "PageDown":
      axis.change((now) => scrollAxis(now, (event.key === "PageUp" ? -1 : 1) * now.widthPx * PAGE_SHARE));
      return true;
    case "Escape":
      select(null);
      return true;
    default:
      return false;
  }
}

function onChanges(desk: Desk, event: KeyboardEvent): boolean {
  const acts = changeActs(desk);
  if (event.key === "ArrowLeft" || event.key === "ArrowRight") {
    const direction = event.key === "ArrowLeft" ? -1 : 1;
    if (event.shiftKey) movePlayhead(desk, direction);
    else acts.step(direction);
    return true;
  }
  if (event.key === "p" || event.key === "P" || event.key === "ArrowDown") {
    toPart(desk);
    return true;
  }
  if (!acts.change || !desk.mayWrite) return false;
  switch (event.key) {
    case "Enter":
      if (isOnButton(event)) return false;
      acts.ink();
      return true;
    case "s":
    case "S":
      acts.split();
      return true;
    case "m":
    case "M":
      acts.merge();
      return true;
    case "Backspace":
    case "Delete":
      acts.rubOut();
      return true;
    case "F2":
      acts.type("");
      return true;
    case "[":
    case "]":
      acts.moveEdge("start", event.key === "[" ? -1 : 1);
      return true;
    case "{":
    case "}":
      acts.moveEdge("end", event.key === "{" ? -1 : 1);
      return true;
    default:
      // A number or a letter begins the chord that is to stand here.
      if (!/^[1-7A-Ga-g#♭♯]$/.test(event.key) && event.key !== "n" && event.key !== "N") return false;
      acts.type(event.key);
      return true;
  }
}

/** By a beat; half a second where no beats are known. */
function movePlayhead({ player, grid, axis }: Desk, direction: -1 | 1): void {
  const { timeSec } = player;
  player.seek(grid ? stepBeat(grid, timeSec, direction) : timeSec + direction * 0.5);
  axis.change((now) => keepInView(now, player.timeSec, 60));
}

/** Puts the caret into the part: under the selected change, else at the playhead. */
function toPart(desk: Desk): void {
  const span = selectedSpan(desk.opened.song, desk.selection, desk.grid);
  const sec = span?.startSec ?? desk.player.timeSec;
  const timeSec = desk.grid ? snapToBeat(desk.grid, sec) : sec;
  desk.select({ kind: "caret", caret: { string: 5, timeSec } });
}

function onPart(desk: Desk, event: KeyboardEvent, typed: { text: string; atMs: number }): boolean {
  const acts = partActs(desk);
  const arrow = ARROWS[event.key];
  if (arrow) {
    typed.text = "";
    if (event.shiftKey && (arrow === "left" || arrow === "right"))
      acts.moveEdge("end", arrow === "left" ? -1 : 1);
    else acts.move(arrow, event.altKey);
    return true;
  }
  if (!desk.mayWrite) return false;
  if (/^\d$/.test(event.key)) {
    const before = performance.now() - typed.atMs < DIGITS_TOGETHER_MS ? typed.text : "";
    typed.text = acts.digit(before, event.key);
    typed.atMs = performance.now();
    return true;
  }
  typed.text = "";
  switch (event.key) {
    case "Enter":
      if (isOnButton(event)) return false;
      acts.ink();
      return true;
    case "Backspace":
    case "Delete":
      acts.rubOut();
      return true;
    case "/":
      acts.articulate("slide");
      return true;
    case ">":
      acts.articulate("press");
      return true;
    case "[":
    case "]":
      acts.moveEdge("start", event.key === "[" ? -1 : 1);
      return true;
    case "{":
    case "}":
      acts.moveEdge("end", event.key === "{" ? -1 : 1);
      return true;
    case "n":
    case "N":
      chooseNextPlace();
      return true;
    default:
      return /^[a-zA-Z]$/.test(event.key) && acts.letter(event.key);
  }
}

/** The bench's cards are in the page; the next one is chosen as a click would. */
function chooseNextPlace(): void {
  const cards = [...document.querySelectorAll<HTMLButtonElement>("[data-place]")];
  const chosen = cards.findIndex((card) => card.getAttribute("aria-pressed") === "true");
  cards[(chosen + 1) % cards.length]?.click();
}

const ARROWS: Readonly<Record<string, "left" | "right" | "up" | "down">> = {
  ArrowLeft: "left",
  ArrowRight: "right",
  ArrowUp: "up",
  ArrowDown: "down",
};
