import { drill, type GroupProofs } from "./Proof";
import { CHANGE } from "./standings";

/** Acts that do the same wherever one is. */
export const EVERYWHERE: GroupProofs = {
  Space: drill("nothing", (hand) => hand.press("Play", "Transport"), "playing"),
  L: drill("change", (hand) => hand.press("Loop it"), "listening"),
  "Shift L": drill("study", (hand) => hand.press("Loop it", "Passage"), "listening"),
  "Shift P": drill("span", (hand) => hand.press("Make it a passage"), "song"),
  "Shift PgUp": drill("secondStudy", (hand) => hand.passage(0), "inHand"),
  "Shift PgDn": drill("study", (hand) => hand.passage(1), "inHand"),
  "Alt PgUp": {
    key: {
      spec: "partEditor",
      step: "a second part on another instrument is written in and folded, and taken back by undo",
    },
    pointer: {
      spec: "partEditor",
      step: "a second part on another instrument is written in and folded, and taken back by undo",
    },
  },
  "Alt PgDn": {
    key: {
      spec: "partEditor",
      step: "a second part on another instrument is written in and folded, and taken back by undo",
    },
    pointer: {
      spec: "partEditor",
      step: "a second part on another instrument is written in and folded, and taken back by undo",
    },
  },
  Q: {
    key: { spec: "passageAtOnce", step: "by the key: what was inked is left as it is" },
    pointer: {
      spec: "passageAtOnce",
      step: "by the button: the steel's notes stand in pencil, heard by the machine",
    },
  },
  "Shift Q": drill(
    "change",
    async (hand) => {
      await hand.press("Ask", hand.page.getByRole("banner"));
      await hand.page.getByLabel("What do you want to know?").click();
    },
    "focus",
  ),
  "Shift Space": drill("change", (hand) => hand.press("Play from here"), "playing"),
  F6: drill("nothing", (hand) => hand.press("−2 s", "Transport"), "playing"),
  ",": drill("nothing", (hand) => hand.slide("speed, pitch kept", "95"), "listening"),
  ".": drill("nothing", (hand) => hand.slide("speed, pitch kept", "105"), "listening"),
  "Alt ,": drill("nothing", (hand) => hand.listen("A half step lower"), "listening"),
  "Alt .": drill("nothing", (hand) => hand.listen("A half step higher"), "listening"),
  F8: drill("nothing", (hand) => hand.press(/^Listening/, "Transport"), "panels"),
  F9: drill("nothing", (hand) => hand.listen("Mute the record"), "listening"),
  F7: drill("nothing", (hand) => hand.listen("Click on the beats"), "listening"),
  Y: drill("nothing", (hand) => hand.press("both", "Hear it"), "listening"),
  "Shift Y": {
    key: { spec: "partEditor", step: "both parts sound together, and events go from one to the other" },
    pointer: { spec: "partEditor", step: "both parts sound together, and events go from one to the other" },
  },
  "(": drill("both", (hand) => hand.slide("balance of record and steel", "-25"), "listening", {
    back: [")"],
  }),
  ")": drill("both", (hand) => hand.slide("balance of record and steel", "25"), "listening", { back: ["("] }),
  U: drill("nothing", (hand) => hand.press(/^Drone/, "Hear it"), "listening"),
  J: drill("nothing", (hand) => hand.press("Chords along", "Hear it"), "listening"),
  "+": drill("nothing", (hand) => hand.press("Zoom in", "Transport"), "lanes", {
    isRough: true,
    back: ["-"],
  }),
  "-": drill("nothing", (hand) => hand.press("Zoom out", "Transport"), "lanes", {
    isRough: true,
    back: ["+"],
  }),
  PgUp: drill(
    "nothing",
    async ({ page }) => {
      await page.mouse.move(700, (await page.getByRole("region", { name: "Changes" }).boundingBox())!.y + 20);
      await page.keyboard.press("PageDown");
      await page.mouse.wheel(-200, 0);
    },
    "lanes",
    { keys: ["PageDown", "PageDown", "PageUp"], isRough: true, back: ["Home"] },
  ),
  PgDn: drill(
    "nothing",
    async ({ page }) => {
      await page.mouse.move(700, (await page.getByRole("region", { name: "Changes" }).boundingBox())!.y + 20);
      await page.mouse.wheel(200, 0);
    },
    "lanes",
    { isRough: true, back: ["Home"] },
  ),
  "Alt Shift ←": drill("span", (hand) => hand.dragOverRecord(), "inHand", { isRough: true }),
  "Alt Shift →": drill("nothing", (hand) => hand.dragOverRecord(), "inHand", { isRough: true }),
  K: {
    key: {
      spec: "playIn",
      step: "leave is asked for when it is wanted; a refusal and a missing keyboard are told",
    },
    pointer: {
      spec: "playIn",
      step: "leave is asked for when it is wanted; a refusal and a missing keyboard are told",
    },
  },
  "Shift K": {
    key: {
      spec: "playIn",
      step: "one note into the microphone is named, and a pair; the microphone is given back",
    },
    pointer: {
      spec: "playIn",
      step: "one note into the microphone is named, and a pair; the microphone is given back",
    },
  },
  I: drill("nothing", (hand) => hand.press("list them", "Heard"), "panels"),
  F4: {
    key: {
      spec: "guessFirst",
      step: "F4 opens the guess; it is held against the record, and kept with one hint",
    },
    pointer: { spec: "guessFirst", step: "a click on a cover guesses there, and uncovers that bar alone" },
  },
  "!": drill(
    "nothing",
    async (hand) => {
      await hand.press("Check it against the record", "Passage");
      await hand.press("Check the part", "Check of the part");
    },
    "check",
  ),
  ";": drill(
    "checked",
    (hand) => hand.region("Check of the part").locator("[data-mark]").first().click(),
    "inHand",
  ),
  ":": drill(
    "checked",
    (hand) => hand.region("Check of the part").locator("[data-mark]").last().click(),
    "inHand",
    { isRough: true },
  ),
  "|": drill("nothing", (hand) => hand.choose("Snap to", "half"), "panels"),
  Home: drill("change", (hand) => hand.clickUnder(CHANGE, "Record", 30), "clock", { isRough: true }),
  H: drill("nothing", (hand) => hand.press(/major|minor/, hand.page.getByRole("banner")), "inHand"),
  "Ctrl Z": drill("inkedChange", (hand) => hand.press("Undo", "Transport"), "song"),
  "Ctrl Shift Z": drill("takenBack", (hand) => hand.press("Redo", "Transport"), "song"),
  Esc: drill("change", (hand) => hand.press("Select nothing"), "inHand"),
  "Ctrl K": drill("nothing", (hand) => hand.press("Do something", hand.page.getByRole("banner")), "panels"),
  "?": drill("nothing", (hand) => hand.press("Keys", "Transport"), "panels"),
};
