"use client";

import { useDrawing } from "@/lib/client/axis/useAxis";
import { moveSectionBoundary } from "@/lib/document/commands/sections";
import { useDesk } from "./DeskContext";
import { LaneFlags } from "./LaneFlags";
import { LaneLayer } from "./LaneLayer";
import { LaneName } from "./LaneName";
import styles from "./lanes.module.css";
import { SectionBox } from "./SectionBox";
import { StretchEdge } from "./StretchEdge";
import sectionStyles from "./sections.module.css";

/** The sections of the song, under the bars; where none are known yet, no lane. */
export function SectionsLane() {
  const { axis, opened } = useDesk();
  const { fromSec, toSec } = useDrawing(axis);
  const { sections } = opened.song;
  if (sections.length === 0) return null;
  const inView = sections
    .map((section, index) => ({ section, before: sections[index - 1] }))
    .filter(({ section }) => section.endSec >= fromSec && section.startSec <= toSec);
  return (
    <section className={`${styles.lane} ${sectionStyles.lane}`} aria-label="Sections">
      <LaneName name="Sections" note="" />
      <div className={`${styles.track} ${sectionStyles.sections}`}>
        <LaneLayer axis={axis}>
          {inView.map(({ section }) => (
            <SectionBox key={`${section.id}.${section.stretch}`} section={section} />
          ))}
          {inView.map(({ section, before }) => (
            <StretchEdge
              key={`${section.id}.${section.stretch}`}
              left={before ?? null}
              right={section}
              move={moveSectionBoundary}
            />
          ))}
          <LaneFlags lane="sections" />
        </LaneLayer>
      </div>
    </section>
  );
}
