import type { HearingStatus } from "@/lib/contracts/books";

const STEPS: Readonly<Record<string, string>> = {
  decode: "Reading the record",
  peaks: "Drawing the record",
  tuning: "Hearing the tuning",
  beats: "Hearing beats",
  changes: "Hearing changes",
  home: "Hearing home",
  bass: "Hearing the bass line",
  sections: "Hearing sections",
  notes: "Hearing the notes of the steel",
};

/** Whether the machine is still at work on a song. */
export function isHearing(status: HearingStatus | null): boolean {
  return status?.state === "waiting" || status?.state === "running";
}

/** How far the hearing is, in one line: "Hearing beats, 62 %". */
export function hearingWords(status: HearingStatus): string {
  switch (status.state) {
    case "waiting":
      return "Waiting to be heard";
    case "running":
      return `${STEPS[status.step ?? ""] ?? "Hearing"}, ${Math.round(status.fraction * 100)} %`;
    case "done":
      return "Heard";
    case "failed":
      return status.message ?? "Hearing stopped with a fault.";
    case "cancelled":
      return "Hearing was cancelled";
  }
}
