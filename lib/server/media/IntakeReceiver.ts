import { RecordIntake, type RecordSignal } from "@/lib/hearing/RecordIntake";
import type { Hertz } from "@/lib/units/quantities";
import type { SampleReceiver } from "./SampleReceiver";

/** Keeps of a record just what the ear hears. */
export class IntakeReceiver implements SampleReceiver {
  private intake: RecordIntake | null = null;

  begin(_channelCount: number, sampleRateHz: Hertz): void {
    this.intake = new RecordIntake(sampleRateHz);
  }

  take(channels: readonly Float32Array[], count: number): void {
    this.intake?.take(channels, count);
  }

  /** @throws RangeError as {@link RecordIntake.finish} does */
  finish(): RecordSignal {
    if (!this.intake) throw new RangeError("The record was never begun; there is nothing to hear.");
    return this.intake.finish();
  }
}
