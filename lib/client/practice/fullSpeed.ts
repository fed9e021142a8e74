/** From this speed on something was played at full speed; with room for rounding. */
export const FULL_SPEED = 0.995;
