import { PRESET_GROUPS } from "@/lib/client/copedents/presetGroups";
import type { CopedentRow } from "@/lib/contracts/copedents";

/** Everything that can be chosen to play on, for a select: one's own, those shared by others, the presets. */
export function CopedentOptions({
  own = [],
  shared = [],
}: {
  own?: readonly CopedentRow[];
  shared?: readonly CopedentRow[];
}) {
  return (
    <>
      {own.length > 0 ? (
        <optgroup label="Yours">
          {own.map(({ id, chart }) => (
            <option key={id} value={`own ${id}`}>
              {chart.name}
            </option>
          ))}
        </optgroup>
      ) : null}
      {shared.length > 0 ? (
        <optgroup label="Shared in this book">
          {shared.map(({ id, chart, ownerName }) => (
            <option key={id} value={`own ${id}`}>
              {chart.name} ({ownerName})
            </option>
          ))}
        </optgroup>
      ) : null}
      {PRESET_GROUPS.map(({ name, presets }) => (
        <optgroup key={name} label={name}>
          {presets.map((preset) => (
            <option key={preset.id} value={`preset ${preset.id}`}>
              {preset.name}
            </option>
          ))}
        </optgroup>
      ))}
    </>
  );
}
