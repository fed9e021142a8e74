"use client";

import { useEffect, useRef, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { percentText } from "@/lib/client/format/format";
import { captureFault } from "@/lib/client/takes/captureFaults";
import type { SongTakes } from "@/lib/client/takes/SongTakes";
import { type InputDevice, inputDevices } from "@/lib/client/takes/TakeInput";
import { useTakesState } from "@/lib/client/takes/useTakes";
import { useDesk } from "./DeskContext";
import styles from "./listening.module.css";

/** By which input takes are recorded, and by how much this device comes late. */
export function ListeningTakes() {
  const { takes } = useDesk().takes;
  return takes ? <Input takes={takes} /> : null;
}

function Input({ takes }: { takes: SongTakes }) {
  const { player } = useDesk();
  const { input } = takes;
  const { deviceId } = useTakesState(input, input.now());
  const [devices, setDevices] = useState<readonly InputDevice[]>([]);
  const [words, setWords] = useState<string | null>(null);
  const [fraction, setFraction] = useState<number | null>(null);
  const measuring = useRef<AbortController>(null);
  const measuredSec = input.measuredSec;

  useEffect(() => {
    const look = () => void inputDevices().then(setDevices, () => {});
    look();
    navigator.mediaDevices?.addEventListener?.("devicechange", look);
    return () => {
      navigator.mediaDevices?.removeEventListener?.("devicechange", look);
      measuring.current?.abort(new Error("left"));
    };
  }, []);

  async function measure() {
    if (measuring.current) {
      measuring.current.abort(new Error("stopped"));
      return;
    }
    if (takes.recorder.isOn) {
      setWords("A take is being recorded. Stop it first, then measure.");
      return;
    }
    takes.listening.stop();
    const scope = new AbortController();
    measuring.current = scope;
    setFraction(0);
    setWords(
      "Clicks are going out: keep still, with the loudspeaker on or the headphones at the microphone.",
    );
    try {
      const { delayWords, measureDelay } = await import("@/lib/client/takes/measureDelay");
      const delay = await measureDelay(player, deviceId, setFraction, scope.signal);
      if (delay.isTold) input.setMeasured(Math.max(0, delay.delaySec));
      setWords(delayWords(delay));
      setDevices(await inputDevices());
    } catch (thrown) {
      setWords(
        scope.signal.aborted
          ? "Stopped: nothing was changed."
          : captureFault(thrown, isSecureContext, "measure"),
      );
    } finally {
      measuring.current = null;
      setFraction(null);
    }
  }

  return (
    <fieldset className={styles.takes}>
      <legend>Takes</legend>
      <div className={styles.row}>
        <label className={styles.note}>
          recorded by
          <select
            className={controls.input}
            value={deviceId ?? ""}
            onChange={(event) => input.choose(event.target.value || null)}
          >
            <option value="">the browser's own choice</option>
            {deviceId !== null && !devices.some(({ id }) => id === deviceId) ? (
              <option value={deviceId}>an input that is not here now</option>
            ) : null}
            {devices.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
      </div>
      <div className={styles.row}>
        <span className={styles.note}>
          delay of this device{" "}
          <strong>
            {measuredSec === null ? "as the browser tells" : `${Math.round(measuredSec * 1000)} ms, measured`}
          </strong>
        </span>
        <button type="button" className={controls.button} onClick={() => void measure()}>
          {fraction === null ? "Measure it" : `Stop (${percentText(fraction)})`}
        </button>
        {measuredSec === null ? null : (
          <button type="button" className={controls.button} onClick={() => input.setMeasured(null)}>
            Forget it
          </button>
        )}
      </div>
      <p className={styles.note} role="status">
        {words ??
          "Measured once by clicks, takes lie exactly on the record. The figure stays in this browser; the sound does not."}
      </p>
    </fieldset>
  );
}
