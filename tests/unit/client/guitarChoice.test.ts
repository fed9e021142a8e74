import { describe, expect, it } from "vitest";
import { isPartOn, valueToChoice } from "@/lib/client/song/guitarChoice";
import type { CopedentShelf } from "@/lib/contracts/copedents";
import type { Chart } from "@/lib/instrument/chart/Chart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { E9 } from "@/lib/instrument/copedents/e9";

const CHART = writeChart(E9);

function shelf(chart: Chart): CopedentShelf {
  const row = { id: "own-1", revision: 2, ownerId: "ann", ownerName: "Ann", isOwn: true, sharedIn: [] };
  return { own: [{ ...row, chart, changedAt: "2026-01-01T00:00:00.000Z" }], shared: [], usual: null };
}

describe("the guitar that is chosen for a part", () => {
  // Rule D38: the chart in the part is a copy.
  it("is the part's own only as it was charted when the part was put on it", () => {
    const head = valueToChoice("own own-1", shelf(CHART))!;
    expect(isPartOn(head, valueToChoice("own own-1", shelf(structuredClone(CHART)))!)).toBe(true);
    const changed = { ...CHART, changes: CHART.changes!.slice(1), combinations: [], footRest: [] };
    expect(isPartOn(head, valueToChoice("own own-1", shelf(changed))!)).toBe(false);
    expect(isPartOn(head, valueToChoice("own own-1", shelf({ ...CHART, name: "Renamed" }))!)).toBe(false);
  });

  it("is another where it was taken from elsewhere, though it is charted alike", () => {
    const preset = valueToChoice("preset e9", null)!;
    expect(isPartOn(preset, preset)).toBe(true);
    expect(isPartOn(valueToChoice("own own-1", shelf(CHART))!, preset)).toBe(false);
  });
});
