"use client";

import { useMemo } from "react";
import { useDrawing } from "@/lib/client/axis/useAxis";
import { withinStretch } from "@/lib/client/axis/withinStretch";
import { moveSectionBoundary } from "@/lib/document/commands/sections";
import { useDesk } from "./DeskContext";
import { LaneFlags } from "./LaneFlags";
import { LaneLayer } from "./LaneLayer";
import { LaneName } from "./LaneName";
import styles from "./lanes.module.css";
import { SectionBox } from "./SectionBox";
import { StretchEdges } from "./StretchEdges";
import sectionStyles from "./sections.module.css";
import { selectedSection } from "./selection";
import { useSpanDrag } from "./useSpanDrag";

/** The sections of the song, under the bars; where none are known yet, no lane. */
export function SectionsLane() {
  const { axis, opened, selection } = useDesk();
  const { fromSec, toSec } = useDrawing(axis);
  const drag = useSpanDrag();
  const { sections } = opened.song;
  const selected = selectedSection(opened.song, selection);
  const inView = useMemo(() => withinStretch(sections, fromSec, toSec), [sections, fromSec, toSec]);
  if (sections.length === 0) return null;
  return (
    <section className={`${styles.lane} ${sectionStyles.lane}`} aria-label="Sections">
      <LaneName name="Sections" note="" />
      <div className={`${styles.track} ${sectionStyles.sections}`} {...drag}>
        <LaneLayer axis={axis}>
          {inView.map((section) => (
            <SectionBox key={`${section.id}.${section.stretch}`} section={section} />
          ))}
          <StretchEdges all={sections} inView={inView} selected={selected} move={moveSectionBoundary} />
          <LaneFlags lane="sections" />
        </LaneLayer>
      </div>
    </section>
  );
}
