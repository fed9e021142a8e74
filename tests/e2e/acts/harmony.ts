import type { Hand } from "./Hand";
import { type Drill, drill, type GroupProofs } from "./Proof";
import { CHANGE, type Standing } from "./standings";

const act = (at: Standing, button: string | RegExp): Drill => drill(at, (hand) => hand.press(button), "song");
const edge = (at: Standing, which: "start" | "end", beats: -1 | 1): Drill =>
  drill(at, (hand) => hand.dragEdge(which, beats), "song");
const end = (at: Standing, which: "start" | "end", step: "step" | "beat", way: "earlier" | "later"): Drill =>
  act(at, `Move its ${which} a ${step} ${way}`);
/** On the keyboard of a phone a finger types as well. */
const typed = async ({ page }: Hand, label: string, text: string) => {
  await page.getByLabel(label, { exact: true }).fill(text);
  await page.keyboard.press("Enter");
};

export const CHANGES: GroupProofs = {
  "←": drill("change", (hand) => hand.change(CHANGE - 1), "inHand"),
  "→": drill("change", (hand) => hand.change(CHANGE + 1), "inHand"),
  "Shift ←": drill("withinChange", (hand) => hand.clickUnder(CHANGE, "Record", 30), "clock", {
    isRough: true,
  }),
  "Shift →": drill("nothing", (hand) => hand.clickUnder(CHANGE, "Record", 30), "clock", { isRough: true }),
  Enter: act("change", "Ink it"),
  V: drill("change", (hand) => hand.press("once", "Hear it"), "sounds", { isRough: true }),
  "Shift V": drill("change", (hand) => hand.press("looped", "Hear it"), "listening"),
  O: drill("change", (hand) => hand.otherGuess(), "song"),
  "1–7 or A–G": drill(
    "change",
    async (hand) => {
      await hand.press("Change");
      await typed(hand, "Chord, as a number or in letters", "2-");
    },
    "song",
    { keys: ["2", "-", "Enter"] },
  ),
  "Shift F2": drill(
    "change",
    async (hand) => {
      await hand.press("Type a run from here");
      await hand.fill("Changes in a run, as numbers or in letters", "1 4");
      await hand.press("Write them", "Changes in a run");
    },
    "song",
    { keys: ["Shift+F2", "1", "Space", "4", "Enter"] },
  ),
  Z: drill("change", (hand) => hand.press(/^Hear 1,/, "The 1, 4 and 5 here"), "said"),
  "Shift H": act("change", "Home changes here"),
  S: act("withinChange", "Split here"),
  M: act("change", "Merge with next"),
  "[": edge("change", "start", -1),
  "]": edge("change", "start", 1),
  "{": edge("change", "end", -1),
  "}": edge("change", "end", 1),
  Backspace: act("change", "Rub out"),
  "↑": drill("change", (hand) => hand.clickUnder(CHANGE, "Sections", 12), "inHand"),
  "↓": drill("change", (hand) => hand.clickUnder(CHANGE, "Bass", 20), "inHand"),
  P: drill("change", (hand) => hand.clickUnder(CHANGE, "Part", 90), "inHand", { isRough: true }),
};

export const BEATS: GroupProofs = {
  T: drill("beatPlaying", (hand) => hand.press("Tap a beat"), "taps"),
  X: drill("nothing", (hand) => hand.press(/bpm/, hand.page.getByRole("banner")), "inHand"),
};

export const TAPPING: GroupProofs = {
  "1": drill("tapping", (hand) => hand.press("Tap a 1"), "taps"),
  Backspace: drill("tapping", (hand) => hand.press("Take the last back"), "taps"),
  // By hand no two taps are alike.
  Enter: drill("tapped", (hand) => hand.press("Lay them over the record"), "song", { isRough: true }),
  "Shift Enter": drill("tapped", (hand) => hand.press("Only where I tapped"), "song", { isRough: true }),
  Esc: drill("tapping", (hand) => hand.press("Drop them"), "taps"),
};

const beat = (step: -1 | 1) => async (hand: Hand) => {
  const at = (await hand.page.locator('[data-beat][class*="inHand"]').boundingBox())!;
  await hand.page.mouse.click(at.x + at.width / 2 + step * (await hand.beatPx()), at.y + at.height / 2);
};

export const BEAT: GroupProofs = {
  "←": drill("beat", beat(-1), "inHand"),
  "→": drill("beat", beat(1), "inHand"),
  "1": act("beat", "It is 1"),
  "Alt 1": act("beat", "It is 1 from here on"),
  "2–9": drill(
    "beat",
    async (hand) => {
      await hand.choose("Beats to the bar", "3");
      await hand.choose("Where", "onward");
      await hand.press("Set");
    },
    "song",
    { keys: ["3"] },
  ),
  "[": act("beat", "10 ms earlier"),
  "]": act("beat", "10 ms later"),
  "{": act("beat", "All beats 10 ms earlier"),
  "}": act("beat", "All beats 10 ms later"),
  "/": act("beat", "Half as many"),
  "*": act("beat", "Twice as many"),
  S: act("beat", "Add one after it"),
  Backspace: act("beat", "Take it out"),
  D: act("beat", "in three"),
  F: act("beatInFreeTime", "Not free time"),
  Enter: act("beat", "Ink the beats"),
};

export const BASS: GroupProofs = {
  "←": drill("secondBass", (hand) => hand.clickUnder(CHANGE, "Bass", 20), "inHand"),
  "→": drill("bass", (hand) => hand.clickUnder(CHANGE + 1, "Bass", 20), "inHand", { isRough: true }),
  Enter: act("bass", "Ink it"),
  // Half steps lead to every note.
  "1–7 or A–G": drill("bass", (hand) => hand.press("Half step up"), "song", { keys: ["7"], isRough: true }),
  "Alt ↑": act("bass", "Half step up"),
  "Alt ↓": act("bass", "Half step down"),
  "Alt Shift ↑": act("bass", "Octave up"),
  "Alt Shift ↓": act("bass", "Octave down"),
  "[": end("secondBass", "start", "step", "earlier"),
  "]": end("bass", "start", "step", "later"),
  "{": end("bass", "end", "step", "earlier"),
  "}": end("bass", "end", "step", "later"),
  Backspace: act("bass", "Rub out"),
  "↑": drill("bass", (hand) => hand.change(CHANGE), "inHand"),
  "↓": drill("bass", clickTrace, "inHand", { isRough: true }),
};

/** Clicks the first heard note that is drawn. */
async function clickTrace(hand: Hand): Promise<void> {
  const at = await hand
    .region("Heard")
    .locator('[data-notes="pencil"]')
    .evaluate((drawn) => {
      const path = drawn as SVGPathElement;
      const place = path.getPointAtLength(3).matrixTransform(path.getScreenCTM() ?? undefined);
      return { x: place.x, y: place.y };
    });
  await hand.page.mouse.click(at.x, at.y);
}

export const NOTES: GroupProofs = {
  "←": drill("note", (hand) => hand.listedNote(-1), "inHand"),
  "→": drill("note", (hand) => hand.listedNote(1), "inHand"),
  Enter: act("note", "Ink it"),
  S: drill("note", (hand) => hand.press("Hear it alone"), "sounds", { isRough: true }),
  "Shift S": drill("pair", (hand) => hand.press("Hear them together alone"), "sounds", { isRough: true }),
  R: drill("note", (hand) => hand.press("Hear it in the record"), "playing"),
  "Shift R": drill("pair", (hand) => hand.press("Hear them together in the record"), "playing"),
  T: act("note", "Not the steel's"),
  W: drill("note", (hand) => hand.press(/^Write (it|them) into the part$/), "bench"),
  "1–7 or A–G": drill("note", (hand) => hand.press("Half step up"), "song", { keys: ["7"], isRough: true }),
  "Alt ↑": act("note", "Half step up"),
  "Alt ↓": act("note", "Half step down"),
  "Alt Shift ↑": act("note", "Octave up"),
  "Alt Shift ↓": act("note", "Octave down"),
  "[": end("note", "start", "step", "earlier"),
  "]": end("note", "start", "step", "later"),
  "{": end("note", "end", "step", "earlier"),
  "}": end("note", "end", "step", "later"),
  Backspace: act("note", "Rub out"),
  "↑": drill("note", (hand) => hand.clickUnder(CHANGE, "Bass", 20), "inHand", { isRough: true }),
  "↓": drill("note", (hand) => hand.clickUnder(CHANGE, "Part", 90), "inHand", { isRough: true }),
};

export const STRETCH: GroupProofs = {
  S: drill("span", (hand) => hand.press("Hear its notes alone"), "sounds", { isRough: true }),
  R: drill("span", (hand) => hand.press("Hear its notes in the record"), "playing"),
  W: drill("span", (hand) => hand.press("Write its notes into the part"), "song"),
  N: {
    key: {
      spec: "heardLane",
      step: "the next way takes its place, and one step of undo takes all of it back",
    },
    pointer: {
      spec: "heardLane",
      step: "the next way takes its place, and one step of undo takes all of it back",
    },
  },
  F: act("span", "Free time"),
};

export const PASSAGES: GroupProofs = {
  "←": drill("secondStudy", (hand) => hand.passage(0), "inHand"),
  "→": drill("study", (hand) => hand.passage(1), "inHand"),
  F2: drill("study", ({ page }) => page.getByLabel("Name of the passage").click(), "focus"),
  "[": end("secondStudy", "start", "beat", "earlier"),
  "]": end("study", "start", "beat", "later"),
  "{": end("study", "end", "beat", "earlier"),
  "}": end("study", "end", "beat", "later"),
  Backspace: act("study", "Rub out"),
  "↓": drill("study", (hand) => hand.section(0), "inHand"),
};

export const GUESSING: GroupProofs = {
  Enter: drill("guessing", (hand) => hand.press("Keep the guess", "Guess"), "guess", { isRough: true }),
  "↑": drill("guessing", (hand) => hand.press("Hear your guess", "Guess"), "sounds", { isRough: true }),
  "↓": drill("guessing", (hand) => hand.press("Hear the record", "Guess"), "playing"),
  "?": drill("guessing", (hand) => hand.press("One hint", "Guess"), "guess", { isRough: true }),
  "Alt ←": drill("guessing", (hand) => hand.press("The place before", "Guess"), "guess"),
  "Alt →": drill("guessing", (hand) => hand.press("The place after", "Guess"), "guess"),
  Tab: {
    key: {
      spec: "guessFirst",
      step: "uncovered, guess and answer stand side by side, and home stands on the page again",
    },
    pointer: { spec: "guessFirst", step: "a click on a cover guesses there, and uncovers that bar alone" },
  },
  Esc: drill("guessing", (hand) => hand.press("Close", "Guess"), "panels"),
};

export const SECTIONS: GroupProofs = {
  "←": drill("section", (hand) => hand.section(0), "inHand"),
  "→": drill("section", (hand) => hand.section(2), "inHand"),
  Enter: act("home", "Ink it"),
  F2: drill("section", ({ page }) => page.getByLabel("Name", { exact: true }).click(), "focus", {
    isRough: true,
  }),
  O: drill("home", (hand) => hand.otherGuess(), "song"),
  "[": [edge("section", "start", -1), end("homeWithin", "start", "beat", "earlier")],
  "]": [edge("section", "start", 1), end("homeWithin", "start", "beat", "later")],
  "{": edge("section", "end", -1),
  "}": edge("section", "end", 1),
  Backspace: [act("section", "Rub out"), act("homeWithin", "Rub out")],
  "↓": drill("section", (hand) => hand.change(2), "inHand", { isRough: true }),
};
