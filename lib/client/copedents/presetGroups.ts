import type { Copedent } from "@/lib/instrument/Copedent";
import { COPEDENTS } from "@/lib/instrument/copedentCatalog";

/** The presets as players look for them. */
export const PRESET_GROUPS: readonly { name: string; presets: readonly Copedent[] }[] = [
  { name: "Pedal steel", presets: COPEDENTS.filter(({ changes }) => changes.length > 0) },
  {
    name: "Lap steel, resonator and open tunings",
    presets: COPEDENTS.filter(({ changes, stoppedBy }) => changes.length === 0 && stoppedBy === "bar"),
  },
  { name: "Stopped by fingers", presets: COPEDENTS.filter(({ stoppedBy }) => stoppedBy === "fingers") },
];
