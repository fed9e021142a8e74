import type { Hertz } from "@/lib/units/quantities";

/** What a string is made of and where it is picked and heard. */
export interface StringTimbre {
  /** Where it is picked, as a part of its length, 0 to 0.5. */
  pickPosition: number;
  /** Where it is heard (pickup or bridge), as a part of its length; null hears all partials alike. */
  pickupPosition: number | null;
  /** How steeply partials fall with their number n: amplitude n^-slope. */
  slope: number;
  /** Damping of all partials, 1/s. */
  damping: number;
  /** Damping that grows with the square of frequency, s. */
  airDamping: number;
  /** Partials above this are left out. */
  brightestHz: Hertz;
}

export type TimbreName = "steel" | "bass" | "guitar" | "drone";

/** All of them measures of ear, no source. */
export const TIMBRES: Readonly<Record<TimbreName, StringTimbre>> = {
  /** Bright wound and plain steel over a pickup near the changer, long to die. */
  steel: {
    pickPosition: 0.17,
    pickupPosition: 0.07,
    slope: 1.15,
    damping: 0.35,
    airDamping: 2.5e-7,
    brightestHz: 7500,
  },
  /** A round, dark string played with the finger. */
  bass: {
    pickPosition: 0.28,
    pickupPosition: 0.22,
    slope: 1.5,
    damping: 1.3,
    airDamping: 4e-6,
    brightestHz: 1800,
  },
  /** Bronze-wound strings near the sound hole. */
  guitar: {
    pickPosition: 0.21,
    pickupPosition: null,
    slope: 0.95,
    damping: 1.6,
    airDamping: 8e-7,
    brightestHz: 9500,
  },
  /** A string that is bowed without end: nothing dies. */
  drone: {
    pickPosition: 0.31,
    pickupPosition: null,
    slope: 1.45,
    damping: 0,
    airDamping: 0,
    brightestHz: 2600,
  },
};
