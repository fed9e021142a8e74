import { Bar } from "@/app/parts/Bar";
import controls from "@/app/parts/controls.module.css";
import { bytesText, clockText } from "@/lib/client/format/format";
import styles from "./book.module.css";
import type { UploadRow } from "./useUploads";

/** One recording on its way: how far, how fast, how long still. */
export function Sending({
  upload,
  onCancel,
  onClose,
}: {
  upload: UploadRow;
  onCancel: () => void;
  onClose: () => void;
}) {
  if (upload.state === "failed")
    return (
      <div className={controls.fault} role="alert">
        <strong>{upload.fileName}</strong>: {upload.message}{" "}
        <button type="button" className={controls.plain} onClick={onClose}>
          Close
        </button>
      </div>
    );
  const { sentBytes, totalBytes, bytesPerSec } = upload.progress;
  const fraction = totalBytes > 0 ? sentBytes / totalBytes : 0;
  const words = upload.state === "reading" ? "Reading it in the browser" : stageWords(fraction);
  const leftSec = bytesPerSec > 0 ? (totalBytes - sentBytes) / bytesPerSec : null;
  return (
    <div className={styles.sending} role="status" aria-label={`Upload of ${upload.fileName}`}>
      <div className={styles.sendingHead}>
        <strong>{upload.fileName}</strong>
        <button type="button" className={controls.button} onClick={onCancel}>
          Cancel
        </button>
      </div>
      <Bar label={`${words}: ${upload.fileName}`} fraction={fraction} />
      <span className={styles.figures}>
        {words}
        {upload.state === "sending" ? ` · ${bytesText(sentBytes)} of ${bytesText(totalBytes)}` : ""}
        {bytesPerSec > 0 && fraction < 1 ? ` · ${bytesText(bytesPerSec)}/s` : ""}
        {leftSec !== null && fraction < 1 ? ` · ${clockText(leftSec)} left` : ""}
      </span>
    </div>
  );
}

function stageWords(fraction: number): string {
  return fraction >= 1 ? "Sent; the server reads it" : `Sending, ${Math.round(fraction * 100)} %`;
}
