"use client";

import { useRef, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { FaultWords } from "@/app/parts/FaultWords";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { ChartFault } from "@/lib/instrument/chart/ChartFault";
import { readChart } from "@/lib/instrument/chart/readChart";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import styles from "./copedents.module.css";
import { useMakeCopedent } from "./useMakeCopedent";

/** No chart is longer; whoever chose a recording by mistake need not wait for it to be read. */
const MOST_BYTES = 256 * 1024;

/** Brings a chart in from a file that was taken out here, or written by hand. */
export function BringInChart() {
  const isReady = useIsReady();
  const field = useRef<HTMLInputElement>(null);
  const { make, isMaking, fault } = useMakeCopedent();
  const [unread, setUnread] = useState<string | null>(null);

  async function bring(file: File): Promise<void> {
    setUnread(null);
    try {
      await make(writeChart(await chartOf(file)));
    } catch (thrown) {
      const why = thrown instanceof Error ? thrown.message : String(thrown);
      setUnread(`${file.name} was not brought in. ${why} Nothing was changed.`);
    }
  }

  return (
    <div className={styles.bring}>
      <input
        ref={field}
        className="unseen"
        type="file"
        accept=".json,application/json"
        tabIndex={-1}
        aria-label="Chart to bring in"
        onChange={(event) => {
          const [file] = event.target.files ?? [];
          event.target.value = "";
          if (file) void bring(file);
        }}
      />
      <button
        type="button"
        className={controls.button}
        disabled={isMaking || !isReady}
        onClick={() => field.current?.click()}
      >
        Bring in a chart
      </button>
      <span className={controls.note}>a file that was taken out here, or one written by hand</span>
      <FaultWords words={unread ?? fault} />
    </div>
  );
}

async function chartOf(file: File) {
  if (file.size > MOST_BYTES) throw new Error("It is too long to be a chart.");
  let json: unknown;
  try {
    json = JSON.parse(await file.text());
  } catch {
    throw new Error("It is not JSON, so it is no chart.");
  }
  try {
    return readChart(json);
  } catch (fault) {
    throw fault instanceof ChartFault ? new Error(`Its chart has a fault. ${fault.message}`) : fault;
  }
}
