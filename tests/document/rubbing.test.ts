import { describe, expect, it } from "vitest";
import { addChange, inkChange, rubOutChange, setChangeLabel } from "@/lib/document/commands/changes";
import { restore } from "@/lib/document/commands/restore";
import { readRubbedOut } from "@/lib/document/read/readRubbedOut";
import { readSong } from "@/lib/document/read/readSong";
import { done, hear, meet, type Replica, replica, send } from "./replicas";

const labels = (on: Replica) => readSong(on.doc).changes.map(({ label, mark }) => `${label} ${mark}`);

/** Replicas that all hold the machine's pencil, and the id of its second change. */
function band(...names: string[]): { people: Replica[]; id: string } {
  const people = names.map((name, index) => replica(name, index + 1));
  hear(people[0]!);
  meet(...people);
  return { people, id: readSong(people[0]!.doc).changes[1]!.id };
}

describe("rubbing out at once with others' acts", () => {
  // Every pair of client ids, for Yjs settles writes at once by them.
  it.each([
    ["ann", "ben"],
    ["ben", "ann"],
  ])("D9: %s inks while %s rubs out the pencil: the ink stays", (inker, rubber) => {
    const { people, id } = band("ann", "ben");
    const who = (by: string) => people.find((each) => each.by === by)!;
    done(inkChange(who(inker).ctx, id));
    done(rubOutChange(who(rubber).ctx, id));
    meet(...people);
    for (const each of people) expect(labels(each)[1]).toBe("C:maj ink");
  });

  it("D9: ink that was seen is rubbed out; a later edit that was not seen brings the record back", () => {
    const { people, id } = band("ann", "ben", "cy");
    const [ann, ben, cy] = people as [Replica, Replica, Replica];
    done(inkChange(ann.ctx, id));
    meet(...people);
    done(rubOutChange(ben.ctx, id));
    done(setChangeLabel(cy.ctx, id, "A:min"));
    send(ben, ann);
    expect(labels(ann)).not.toContain("C:maj ink");
    meet(...people);
    for (const each of people) expect(labels(each)[1]).toBe("A:min ink");
  });

  it("D9: two people's ink at once; who saw only one of them cannot rub out both", () => {
    for (const seen of [0, 1]) {
      const { people, id } = band("ann", "ben", "cy");
      const [ann, ben, cy] = people as [Replica, Replica, Replica];
      done(inkChange(ann.ctx, id));
      done(inkChange(ben.ctx, id));
      send([ann, ben][seen]!, cy);
      done(rubOutChange(cy.ctx, id));
      expect(labels(cy)).toHaveLength(3);
      meet(...people);
      for (const each of people) expect(labels(each)[1]).toBe("C:maj ink");
    }
  });

  it("D9: two rubbers who each saw one of two inks have together seen both", () => {
    const { people, id } = band("ann", "ben", "cy", "dee");
    const [ann, ben, cy, dee] = people as [Replica, Replica, Replica, Replica];
    done(inkChange(ann.ctx, id));
    done(inkChange(ben.ctx, id));
    send(ann, cy);
    send(ben, dee);
    done(rubOutChange(cy.ctx, id));
    done(rubOutChange(dee.ctx, id));
    meet(...people);
    for (const each of people) expect(labels(each)).toHaveLength(3);
  });

  it("D20: pencil that ink covers whole is not listed as lost ink", () => {
    const { people } = band("ann");
    const ann = people[0]!;
    done(addChange(ann.ctx, { startSec: 2, endSec: 4, label: "E:min" }));
    expect(labels(ann)[1]).toBe("E:min ink");
    expect(readSong(ann.doc).covered.change).toEqual([]);
  });

  it("D20: ink that other ink covers whole is listed, not lost", () => {
    const ann = replica("ann", 1);
    done(addChange(ann.ctx, { startSec: 1, endSec: 3, label: "G:maj" }));
    done(addChange(ann.ctx, { startSec: 1, endSec: 3, label: "E:min" }));
    expect(labels(ann)).toEqual(["E:min ink"]);
    expect(readSong(ann.doc).covered.change.map((each) => each.label)).toEqual(["G:maj"]);
  });
});

describe("putting back", () => {
  it("D10: pencil comes back as pencil, ink as ink", () => {
    const { people, id } = band("ann");
    const ann = people[0]!;
    for (const mark of ["pencil", "ink"]) {
      if (mark === "ink") done(inkChange(ann.ctx, id));
      done(rubOutChange(ann.ctx, id));
      expect(readRubbedOut(ann.doc, "change")).toMatchObject([{ record: { id, mark }, rubbedBy: "ann" }]);
      done(restore(ann.ctx, "change", id));
      expect(labels(ann)[1]).toBe(`C:maj ${mark}`);
      expect(readRubbedOut(ann.doc, "change")).toEqual([]);
    }
  });

  it("D10: puts back what others rubbed out, and keeps a rubbing-out that was not seen", () => {
    const { people, id } = band("ann", "ben", "cy");
    const [ann, ben, cy] = people as [Replica, Replica, Replica];
    done(rubOutChange(ben.ctx, id));
    send(ben, ann);
    done(restore(ann.ctx, "change", id));
    expect(labels(ann)).toHaveLength(4);
    done(rubOutChange(cy.ctx, id));
    meet(...people);
    for (const each of people) expect(labels(each)).toHaveLength(3);
  });

  it("D10: puts back a second time, after another rubbed out again", () => {
    const { people, id } = band("ann", "ben", "cy");
    const [ann, ben, cy] = people as [Replica, Replica, Replica];
    for (const rubber of [ben, cy]) {
      done(rubOutChange(rubber.ctx, id));
      send(rubber, ann);
      expect(labels(ann)).toHaveLength(3);
      done(restore(ann.ctx, "change", id));
      expect(labels(ann)).toHaveLength(4);
      meet(...people);
    }
    for (const each of people) expect(labels(each)).toHaveLength(4);
  });

  it("D17: refuses what is not rubbed out, and what is unknown", () => {
    const { people, id } = band("ann");
    const ann = people[0]!;
    expect(restore(ann.ctx, "change", id)).toMatchObject({ ok: false, reason: "notRubbedOut" });
    expect(restore(ann.ctx, "part", id)).toMatchObject({ ok: false, reason: "unknownRecord" });
  });
});
