"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef, useState } from "react";
import controls from "@/app/parts/controls.module.css";
import { bytesText } from "@/lib/client/format/format";
import { useIsReady } from "@/lib/client/page/useIsReady";
import type { UploadLimits } from "@/lib/contracts/uploads";
import styles from "./book.module.css";
import { Sending } from "./Sending";
import { useUploads } from "./useUploads";

/** Drag a recording anywhere on the page, or choose it. */
export function AddRecording({ bookId, limits }: { bookId: string; limits: UploadLimits }) {
  const router = useRouter();
  const isReady = useIsReady();
  const chooser = useRef<HTMLInputElement>(null);
  const [dropping, setDropping] = useState(false);
  const uploads = useUploads(bookId, limits, () => router.refresh());
  const { add } = uploads;

  useEffect(() => {
    const holdsFiles = (event: DragEvent) => event.dataTransfer?.types.includes("Files") ?? false;
    const over = (event: DragEvent) => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      setDropping(true);
    };
    const leave = (event: DragEvent) => {
      if (event.relatedTarget === null) setDropping(false);
    };
    const drop = (event: DragEvent) => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      setDropping(false);
      add([...(event.dataTransfer?.files ?? [])]);
    };
    window.addEventListener("dragover", over);
    window.addEventListener("dragleave", leave);
    window.addEventListener("drop", drop);
    return () => {
      window.removeEventListener("dragover", over);
      window.removeEventListener("dragleave", leave);
      window.removeEventListener("drop", drop);
    };
  }, [add]);

  // A file chosen before the page's scripts ran was told to nobody.
  useEffect(() => {
    const early = chooser.current;
    if (!early?.files?.length) return;
    add([...early.files]);
    early.value = "";
  }, [add]);

  return (
    <section className={`${styles.add} ${dropping ? styles.dropping : ""}`} aria-label="Add a recording">
      <div className={styles.addRow}>
        <button
          type="button"
          className={controls.act}
          disabled={!isReady}
          onClick={() => chooser.current?.click()}
        >
          Add a recording
        </button>
        <input
          ref={chooser}
          className="unseen"
          type="file"
          accept="audio/*,.aiff,.aif,.flac,.opus,.m4a,.webm"
          multiple
          tabIndex={-1}
          aria-label="Recording to add"
          onChange={(event) => {
            add([...(event.target.files ?? [])]);
            event.target.value = "";
          }}
        />
        <span>{dropping ? "Let go to add it" : "or drag a file anywhere on this page"}</span>
      </div>
      <p className={controls.small}>
        The recording stays private to this book: only its members can play it. WAV, AIFF, MP3, FLAC, Ogg,
        Opus, M4A or WebM, up to {bytesText(limits.maxBytes)} and {Math.round(limits.maxDurationSec / 60)}{" "}
        minutes.
      </p>
      {uploads.list.map((upload) => (
        <Sending
          key={upload.key}
          upload={upload}
          onCancel={() => uploads.cancel(upload.key)}
          onClose={() => uploads.close(upload.key)}
        />
      ))}
    </section>
  );
}
