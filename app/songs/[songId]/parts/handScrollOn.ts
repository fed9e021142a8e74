import type { UIEvent } from "react";
import type { AxisStore } from "@/lib/client/axis/AxisStore";
import { scrollAxis } from "@/lib/client/axis/timeAxis";

/** The browser scrolls a lane that is not clipped to what gets the focus: hands that on to the axis, so that all lanes go along. */
export function handScrollOn(axis: AxisStore): (event: UIEvent<HTMLElement>) => void {
  return ({ currentTarget }) => {
    const px = currentTarget.scrollLeft;
    if (px === 0) return;
    currentTarget.scrollLeft = 0;
    axis.change((now) => scrollAxis(now, px));
  };
}
