"use client";

import controls from "@/app/parts/controls.module.css";
import type { ShownPart } from "@/lib/document/read/SongSnapshot";
import { TECHNIQUES, type Technique } from "@/lib/notation/Technique";
import { TECHNIQUE_WORDS } from "./techniqueWords";

/** One toggle for each technique; pressed where all of the events have it. */
export function TechniqueToggles({
  events,
  toggle,
  className = controls.toggle,
}: {
  events: readonly ShownPart[];
  toggle: (technique: Technique) => void;
  className?: string | undefined;
}) {
  return TECHNIQUES.map((technique) => {
    const { name, does } = TECHNIQUE_WORDS[technique];
    return (
      <button
        key={technique}
        type="button"
        className={className}
        title={does}
        disabled={events.length === 0}
        aria-pressed={events.length > 0 && events.every((each) => each.techniques?.includes(technique))}
        onClick={() => toggle(technique)}
      >
        {name}
      </button>
    );
  });
}
