"use client";

import { useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { request, wordsOf } from "@/lib/client/requests/request";
import { api } from "@/lib/contracts/api";
import type { CopedentRow, UsualCopedent } from "@/lib/contracts/copedents";
import { CopedentOptions } from "./CopedentOptions";

/** On which guitar new songs of one's own start. */
export function UsualChoice({ own, usual }: { own: readonly CopedentRow[]; usual: UsualCopedent }) {
  const isReady = useIsReady();
  const [chosen, setChosen] = useState(usual);
  const [word, setWord] = useState("");
  const [fault, setFault] = useState<string | null>(null);

  async function choose(value: string): Promise<void> {
    setFault(null);
    setWord("");
    const next = valueToUsual(value);
    setChosen(next);
    try {
      await request<UsualCopedent>("PUT", api.usualCopedent(), next);
      setWord("Saved. New songs that you add start on it.");
    } catch (thrown) {
      setChosen(chosen);
      setFault(wordsOf(thrown));
    }
  }

  return (
    <div>
      <label className={controls.field}>
        Your usual guitar, on which new songs start
        <select
          className={controls.input}
          value={usualToValue(chosen)}
          disabled={!isReady}
          onChange={(event) => choose(event.target.value)}
        >
          <option value="">none said: the first E9 preset</option>
          <CopedentOptions own={own} />
        </select>
      </label>
      <p className={controls.small} role="status">
        {word}
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
