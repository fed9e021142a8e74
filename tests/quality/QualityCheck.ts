/** One thing that every change must keep, and whether it holds. */
export interface QualityCheck {
  name: string;
  passed: boolean;
  detail: string;
}
