import { useCallback, useEffect, useRef, useState } from "react";
import { wordsOf } from "@/lib/client/requests/request";
import { prepareRecording } from "@/lib/client/upload/prepareRecording";
import { startUpload, titleOf, UploadCancelled, type UploadProgress } from "@/lib/client/upload/upload";
import type { UploadLimits } from "@/lib/contracts/uploads";

export interface UploadRow {
  key: number;
  fileName: string;
  state: "reading" | "sending" | "failed";
  progress: UploadProgress;
  message: string;
}

const NOTHING: UploadProgress = { sentBytes: 0, totalBytes: 0, bytesPerSec: 0 };

/** The uploads of this page; each ends by itself, in the list only while it runs or after a fault. */
export function useUploads(bookId: string, limits: UploadLimits, onAdded: () => void) {
  const [list, setList] = useState<UploadRow[]>([]);
  const cancels = useRef(new Map<number, () => void>());
  const nextKey = useRef(1);
  const added = useRef(onAdded);
  added.current = onAdded;

  const change = useCallback((key: number, fields: Partial<UploadRow>) => {
    setList((rows) => rows.map((row) => (row.key === key ? { ...row, ...fields } : row)));
  }, []);
  const close = useCallback((key: number) => {
    cancels.current.delete(key);
    setList((rows) => rows.filter((row) => row.key !== key));
  }, []);

  const send = useCallback(
    async (key: number, file: File) => {
      const stopped = new AbortController();
      cancels.current.set(key, () => stopped.abort());
      try {
        const recording = await prepareRecording(file, limits);
        stopped.signal.throwIfAborted();
        const upload = startUpload(bookId, { ...recording, title: titleOf(file.name) }, (progress) =>
          change(key, { progress }),
        );
        cancels.current.set(key, upload.cancel);
        change(key, { state: "sending", progress: { ...NOTHING, totalBytes: recording.body.size } });
        await upload.done;
        close(key);
        added.current();
      } catch (thrown) {
        if (thrown instanceof UploadCancelled || stopped.signal.aborted) close(key);
        else change(key, { state: "failed", message: wordsOf(thrown) });
      }
    },
    [bookId, limits, change, close],
  );

  const add = useCallback(
    (files: File[]) => {
      for (const file of files) {
        const key = nextKey.current++;
        setList((rows) => [
          ...rows,
          { key, fileName: file.name, state: "reading", progress: NOTHING, message: "" },
        ]);
        void send(key, file);
      }
    },
    [send],
  );

  const cancel = useCallback((key: number) => cancels.current.get(key)?.(), []);

  const sending = list.some((row) => row.state !== "failed");
  useEffect(() => {
    if (!sending) return;
    const ask = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener("beforeunload", ask);
    return () => window.removeEventListener("beforeunload", ask);
  }, [sending]);

  return { list, add, cancel, close };
}
