"use client";

import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { useIsReady } from "@/lib/client/page/useIsReady";
import type { CopedentRow, UsualCopedent } from "@/lib/contracts/copedents";
import { CopedentOptions } from "./CopedentOptions";
import { useUsualCopedent, usualWords } from "./useUsualCopedent";

/** On which guitar new songs of one's own start. */
export function UsualChoice({ own, usual }: { own: readonly CopedentRow[]; usual: UsualCopedent }) {
  const isReady = useIsReady();
  const { shown, isSaved, fault, choose } = useUsualCopedent(usual);

  return (
    <div>
      <label className={controls.field}>
        Your usual guitar, on which new songs start
        <select
          className={controls.input}
          value={usualToValue(shown)}
          disabled={!isReady}
          onChange={(event) => choose(valueToUsual(event.target.value))}
        >
          <option value="">none said: the first E9 preset</option>
          <CopedentOptions own={own} />
        </select>
      </label>
      <p className={controls.small} role="status">
        {isSaved ? `Saved. ${usualWords(shown)}` : null}
      </p>
      <FaultWords words={fault} />
    </div>
  );
}

function usualToValue(usual: UsualCopedent): string {
  if (usual === null) return "";
  return "presetId" in usual ? `preset ${usual.presetId}` : `own ${usual.copedentId}`;
}

function valueToUsual(value: string): UsualCopedent {
  const [kind, id = ""] = value.split(" ");
  if (kind === "preset") return { presetId: id };
  return kind === "own" ? { copedentId: id } : null;
}
