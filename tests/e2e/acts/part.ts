import type { Hand } from "./Hand";
import { type Drill, drill, type GroupProofs } from "./Proof";
import type { Standing } from "./standings";

const act = (at: Standing, button: string | RegExp): Drill => drill(at, (hand) => hand.press(button), "song");
const bar = (button: string): Drill => drill("events", (hand) => hand.press(button, "Chosen events"), "song");
const begins = (at: Standing, value: string): Drill =>
  drill(at, (hand) => hand.choose("Begins", value), "song");
/** Chosen by its button, an event is moved by the bar's. */
const chosen = (at: Standing, button: string): Drill =>
  drill(
    at,
    async (hand) => {
      await hand.press("Choose several");
      await hand.press(button, "Chosen events");
    },
    "song",
  );
/** An event is drawn along as a whole; then its end goes back to where it was. */
const start = (at: Standing, beats: -1 | 1, back: string): Drill =>
  drill(
    at,
    async (hand) => {
      await hand.dragCell(at === "event" ? 0 : 2, beats);
      await hand.press(back);
    },
    "song",
  );
/** By a field or a button of the panel of locks. */
const lock = (by: (hand: Hand) => Promise<unknown>): Drill =>
  drill(
    "placed",
    async (hand) => {
      await hand.press("Locks", "Where it lies");
      await by(hand);
    },
    "bench",
  );
const locks = (hand: Hand) => hand.page.getByRole("group", { name: "Locks" });

const TO_OTHER = {
  spec: "partEditor",
  step: "both parts sound together, and events go from one to the other",
};
/** One way round as the other, since there are two parts. */
const TO_PART = { key: TO_OTHER, pointer: TO_OTHER };

export const PART: GroupProofs = {
  "←": drill("caret", (hand) => hand.clickFromCaret(-1, 0), "inHand"),
  "→": drill("caret", (hand) => hand.clickFromCaret(1, 0), "inHand"),
  "Alt ←": drill("caret", finer(-0.25), "caret"),
  "Alt →": drill("caret", finer(0.25), "caret"),
  "↑": drill("caret", (hand) => hand.clickFromCaret(0, -1), "inHand"),
  "↓": drill("caret", (hand) => hand.clickFromCaret(0, 1), "inHand"),
  "0–9": drill("caret", (hand) => hand.fill("Fret", "7"), "song", { keys: ["7"] }),
  "A B C F E …": drill("event", (hand) => hand.pedal(0), "song", { keys: ["a"] }),
  _: drill("event", (hand) => hand.pedal(1), "song", { keys: ["_", "b", "Enter", "Escape"] }),
  "/": begins("event", "slide"),
  ">": drill("secondEvent", (hand) => hand.choose("Begins", "slidePress"), "song"),
  "<": begins("secondEvent", "tie"),
  "'": act("event", "Block"),
  "~ or $": act("event", "Vibrato"),
  "@": act("event", "Harmonic"),
  "[": start("event", -1, "Longer"),
  "]": start("longEvent", 1, "Shorter"),
  "{": act("longEvent", "Shorter"),
  "}": act("event", "Longer"),
  "Alt ↑": act("event", "Half step up"),
  "Alt ↓": act("event", "Half step down"),
  "Alt Shift ↑": chosen("event", "An octave up"),
  "Alt Shift ↓": chosen("highEvent", "An octave down"),
  "Alt Shift PgUp": TO_PART,
  "Alt Shift PgDn": TO_PART,
  "Shift and arrows": drill("event", (hand) => hand.box(), "inHand", {
    keys: ["Shift+ArrowRight"],
    isRough: true,
  }),
  "Ctrl A": drill("nothing", (hand) => hand.box(), "inHand", { isRough: true }),
  "Ctrl C X V": [
    drill("events", (hand) => hand.press("Copy", "Chosen events"), "said", { keys: ["Control+c"] }),
    drill("events", (hand) => hand.press("Cut", "Chosen events"), "song", { keys: ["Control+x"] }),
    drill("copied", (hand) => hand.press("Paste here"), "song", { keys: ["Control+v"] }),
  ],
  F2: drill("caret", (hand) => hand.region("Where it lies").getByLabel("Notes").click(), "focus"),
  N: drill("placed", (hand) => hand.press("Try a place", "Hear it"), "said"),
  "*": lock(async (hand) => {
    const first = locks(hand).getByRole("combobox").first();
    const string = /^String (\d+)/.exec(await hand.stringTag())?.[1] ?? "";
    await first.selectOption(string);
  }),
  "#": lock((hand) => locks(hand).getByRole("button", { name: "This one" }).click()),
  "&": lock((hand) => locks(hand).getByRole("button", { name: "up", exact: true }).click()),
  "%": drill("placed", (hand) => hand.press("Locks", "Where it lies"), "panels"),
  Enter: drill("tried", (hand) => hand.press("Ink it", "Hear it"), "song"),
  Backspace: act("event", "Rub out"),
  "Esc, then ←": drill("tried", (hand) => hand.press("Leave it", "Hear it"), "listening", {
    keys: ["Escape"],
  }),
};

/** With a finer snap a click goes as far as the key does without. */
function finer(beats: number) {
  return async (hand: Hand) => {
    await hand.choose("Snap to", "quarter");
    await hand.clickFromCaret(beats, 0);
  };
}

export const EVENTS: GroupProofs = {
  "Alt Shift PgUp": TO_PART,
  "Alt Shift PgDn": TO_PART,
  "Shift and arrows": drill(
    "oneChosen",
    async (hand) => {
      const { x, y } = await hand.cell(1);
      await hand.page.keyboard.down("Control");
      await hand.page.mouse.click(x, y);
      await hand.page.keyboard.up("Control");
    },
    "inHand",
    { keys: ["Shift+ArrowRight"], isRough: true },
  ),
  "[": bar("Move them back by one step of the snap"),
  "]": bar("Move them on by one step of the snap"),
  "{": drill("longEvents", (hand) => hand.press("Shorter", "Chosen events"), "song"),
  "}": bar("Longer"),
  "Alt ↑": bar("A half step up"),
  "Alt ↓": bar("A half step down"),
  "Alt Shift ↑": bar("An octave up"),
  "Alt Shift ↓": drill("highEvents", (hand) => hand.press("An octave down", "Chosen events"), "song"),
  N: bar("The next place where they sound the same"),
  '"': drill(
    "events",
    (hand) => hand.press("Draw their beginnings and ends to the grid", "Chosen events"),
    "said",
  ),
  "A B C …": drill("events", (hand) => hand.pedal(0), "song", { keys: ["a"] }),
  "/": bar("Slide"),
  ">": bar("Pressed or let off while it rings"),
  "<": bar("Tied: rings on, not picked again"),
  "'": bar("Block"),
  "~": bar("Vibrato"),
  "@": bar("Harmonic"),
  Enter: drill("pencilled", (hand) => hand.press("Ink them", "Chosen events"), "song"),
  Backspace: bar("Rub out"),
  Esc: drill("events", (hand) => hand.press("Done", "Chosen events"), "inHand"),
};
