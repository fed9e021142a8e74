import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { readSong } from "@/lib/document/read/readSong";
import { ACTS } from "./acts";
import { Dice, seeded } from "./dice";
import { hear, replica } from "./replicas";
import { expectValid } from "./validSong";

const NAMES = Object.keys(ACTS);
/** One person's act: who, which command, and the seed of its arguments. */
const act = fc.record({
  who: fc.nat({ max: 3 }),
  name: fc.constantFrom(...NAMES, "undo", "hear"),
  seed: fc.nat(),
  /** How many of the updates not yet delivered reach their people after this act. */
  deliver: fc.nat({ max: 3 }),
});

describe("replicas that exchange single updates", () => {
  it("D4: in any order, late, more than once: all show the equal valid song", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 4 }),
        fc.array(act, { minLength: 1, maxLength: 25 }),
        fc.nat(),
        (count, acts, seed) => {
          const people = Array.from({ length: count }, (_, index) => replica(`p${index}`, index + 1));
          const dice = new Dice(seeded(seed));
          const sent: Uint8Array[] = [];
          const underway: { to: number; update: Uint8Array }[] = [];
          for (const [from, { doc }] of people.entries()) {
            doc.on("update", (update: Uint8Array, origin: unknown) => {
              if (origin === "network") return;
              sent.push(update);
              for (const to of people.keys()) if (to !== from) underway.push({ to, update });
            });
          }
          const deliver = (): void => {
            const [letter] = underway.splice(dice.below(underway.length), 1);
            if (letter !== undefined) Y.applyUpdate(people[letter.to]!.doc, letter.update, "network");
          };
          for (const each of acts) {
            const on = people[each.who % count]!;
            if (each.name === "undo") on.undo.undo();
            else if (each.name === "hear") hear(on, undefined, `run ${each.seed}`);
            else ACTS[each.name]!(on, new Dice(seeded(each.seed)));
            expectValid(readSong(on.doc));
            for (let left = each.deliver; left > 0; left--) deliver();
          }
          while (underway.length > 0) deliver();
          const song = readSong(people[0]!.doc);
          for (const { doc } of people) {
            for (const update of sent.slice(0, 3)) Y.applyUpdate(doc, update, "network");
            expect(readSong(doc)).toEqual(song);
          }
          expectValid(song);

          const fresh = new Y.Doc();
          for (const update of [...sent].reverse()) Y.applyUpdate(fresh, update);
          expect(readSong(fresh)).toEqual(song);
        },
      ),
      { numRuns: 150 },
    );
  }, 60_000);
});
