import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  keptListening,
  LISTENING_AT_FIRST,
  LISTENING_RANGES,
  shiftCents,
} from "@/lib/document/records/ListeningSettings";

describe("how a record is listened to", () => {
  it("is the record as it is, unless something is said", () => {
    expect(keptListening(undefined)).toEqual(LISTENING_AT_FIRST);
    expect(keptListening({ speed: "fast", channels: "up", ladder: 3 })).toEqual(LISTENING_AT_FIRST);
  });

  it("comes back as it was from JSON", () => {
    const settings = keptListening({ speed: 0.35, semitones: -3, cents: 17.5, band: "bass", gapSec: 1.2 });
    expect(keptListening(JSON.parse(JSON.stringify(settings)))).toEqual(settings);
    expect(settings).toMatchObject({ speed: 0.35, cents: 17.5, gapSec: 1.2 });
  });

  it("lets what is not given stand as it was", () => {
    const before = keptListening({ speed: 0.5, channels: "left", ladder: { isOn: true } });
    expect(keptListening({ semitones: 2, ladder: { times: 4 } }, before)).toEqual({
      ...before,
      semitones: 2,
      ladder: { ...before.ladder, times: 4 },
    });
  });

  it("stays within its ranges whatever comes", () => {
    fc.assert(
      fc.property(
        fc.record({
          speed: fc.anything(),
          semitones: fc.double(),
          cents: fc.double(),
          seamMs: fc.anything(),
        }),
        (given) => {
          const kept = keptListening(given);
          for (const name of ["speed", "semitones", "cents", "seamMs"] as const) {
            expect(kept[name]).toBeGreaterThanOrEqual(LISTENING_RANGES[name][0]);
            expect(kept[name]).toBeLessThanOrEqual(LISTENING_RANGES[name][1]);
          }
        },
      ),
    );
  });

  it("takes no range of its own that lets nothing through", () => {
    expect(keptListening({ ownBand: { lowHz: 900, highHz: 300 } }).ownBand).toEqual(
      LISTENING_AT_FIRST.ownBand,
    );
    expect(keptListening({ ownBand: { lowHz: 300, highHz: 900 } }).ownBand).toEqual({
      lowHz: 300,
      highHz: 900,
    });
  });

  it("stands off the record's pitch by half steps and cents together", () => {
    expect(shiftCents({ semitones: -2, cents: 12.5 })).toBe(-187.5);
  });
});
