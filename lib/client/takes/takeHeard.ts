/** What one hears of a take: it alone, record left and take right, or the record there alone. */
export const TAKE_HEARD = ["take", "both", "record"] as const;
export type TakeHeard = (typeof TAKE_HEARD)[number];
