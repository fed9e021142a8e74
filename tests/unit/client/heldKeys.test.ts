import { describe, expect, it } from "vitest";
import { isHeldOn } from "@/app/songs/[songId]/parts/heldKeys";

const key = (name: string, more = {}) => ({
  ...{ key: name, repeat: true, ctrlKey: false, metaKey: false },
  ...more,
});

describe("a key that is held", () => {
  it.each(["ArrowLeft", "ArrowUp", "PageDown", "1", "+", "-", ",", ".", "[", "}", "(", ";"])(
    "goes on where it leads somewhere: %s",
    (name) => expect(isHeldOn(key(name))).toBe(false),
  );
  it.each([
    " ",
    "Enter",
    "Backspace",
    "Delete",
    "Escape",
    "Home",
    "F2",
    "?",
    "!",
    "*",
    "#",
    "/",
    ">",
    ..."JUYNVKQLWSRTOMPIHABCDEF",
  ])("acts once a press: %s", (name) => {
    expect(isHeldOn(key(name))).toBe(true);
    expect(isHeldOn(key(name.toLowerCase()))).toBe(true);
    expect(isHeldOn(key(name, { repeat: false }))).toBe(false);
  });
  it("goes on taking back", () => {
    expect(isHeldOn(key("z", { ctrlKey: true }))).toBe(false);
    expect(isHeldOn(key("Z", { metaKey: true }))).toBe(false);
  });
});
