"use client";

import { useMemo, useState } from "react";
import type { StretchPlace } from "@/lib/document/read/SongSnapshot";
import { StretchEdge } from "./StretchEdge";
import type { OnEdge } from "./stretchActs";

/** The edges in view of the stretches of a lane; one that is dragged stays when the lanes have gone on past where it stood. */
export function StretchEdges<S extends StretchPlace & { id: string; startSec: number; endSec: number }>({
  all,
  inView,
  selected,
  move,
}: {
  /** In order of time. */
  all: readonly S[];
  inView: readonly S[];
  /** What is selected in the lane. */
  selected: S | null;
  move: OnEdge;
}) {
  const [draggedKey, setDragged] = useState<string | null>(null);
  const before = useMemo(() => new Map(all.map((each, index) => [each, all[index - 1]])), [all]);
  const dragged = draggedKey === null ? undefined : all.find((each) => keyOf(each) === draggedKey);
  const isOutside = dragged !== undefined && !inView.includes(dragged);
  // In order of time always: an element that is moved within its layer loses the pointer.
  const shown = isOutside ? [...inView, dragged].sort((a, b) => a.startSec - b.startSec) : inView;
  return shown.map((each) => (
    <StretchEdge
      key={keyOf(each)}
      left={before.get(each) ?? null}
      right={each}
      selected={selected}
      move={move}
      onDragged={(isDragged) => setDragged(isDragged ? keyOf(each) : null)}
    />
  ));
}

function keyOf({ id, stretch }: StretchPlace & { id: string }): string {
  return `${id}.${stretch}`;
}
