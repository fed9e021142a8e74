import { beforeEach, describe, expect, it } from "vitest";
import type { Desk } from "@/app/songs/[songId]/parts/DeskContext";
import { soundActs } from "@/app/songs/[songId]/parts/soundActs";
import { KeptParts } from "@/lib/client/lanes/KeptParts";
import type { Listen } from "@/lib/client/player/ListenMix";
import { findCopedent } from "@/lib/instrument/copedentCatalog";

const part = (id: string, name: string, guitar: string) => ({
  ...{ id, name, head: { copedent: findCopedent(guitar)! } },
});
const LIST = [part("part", "", "e9"), part("2", "Fiddle", "mandolin"), part("3", "Bass", "bass-4")];

let kept: KeptParts;
let listen: Listen;
let said: string | null;

/** As much of the desk as these acts ask of it, with one of the parts in hand. */
function acts(atHandId = "part", list = LIST) {
  const steel = {
    now: () => ({ listen }),
    setListen: async (next: Listen) => {
      listen = next;
    },
  };
  const atHand = list.find(({ id }) => id === atHandId);
  const parts = { list, atHand, kept };
  const say = (words: string | null) => {
    said = words;
  };
  return soundActs({ opened: { song: {} }, steel, parts, say } as unknown as Desk);
}

describe("parts that sound beside the one in hand", () => {
  beforeEach(() => {
    kept = new KeptParts({ userId: "ann", songId: "s1" }, { getItem: () => null, setItem() {} });
    listen = "record";
    said = null;
  });

  it("are heard as soon as they are asked for, and it is said which", () => {
    acts().switchPart("2");
    expect([listen, said]).toEqual(["both", "The steel and Fiddle."]);
    listen = "parts";
    acts().switchPart("3");
    expect([listen, said]).toEqual(["parts", "The steel, Fiddle and Bass."]);
    listen = "record";
    acts().switchPart("3");
    expect([listen, said]).toEqual(["record", "The steel and Fiddle."]);
  });

  it("sound all at once by one key where none was chosen, then those that were, and the one in hand alone between", () => {
    acts().turnBeside();
    expect([listen, said]).toEqual(["both", "The steel, Fiddle and Bass."]);
    acts().switchPart("3");
    acts().turnBeside();
    expect(said).toBe("The steel alone.");
    acts().turnBeside();
    expect(said).toBe("The steel and Fiddle.");
    // With that one in hand none of the others was chosen; its own switch stays as it was for when another is.
    acts("2").turnBeside();
    expect(said).toBe("Fiddle, the steel and Bass.");
    expect(kept.now().sounding).toEqual(["2", "part", "3"]);
  });

  it("are told to be wanting where there is one part", () => {
    acts("part", LIST.slice(0, 1)).turnBeside();
    expect([listen, said]).toEqual([
      "record",
      "The song has one part. Add another in the sheet of its parts.",
    ]);
  });
});
