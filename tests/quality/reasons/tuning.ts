import type { Prediction } from "../prediction";
import type { Truth } from "../Subject";

export function tuningReason({ tuningCents }: Truth, { hearing }: Prediction): string {
  const apart = ((((hearing.tuningCents - tuningCents! + 50) % 100) + 100) % 100) - 50;
  const which = apart > 0 ? "sharp" : "flat";
  return `heard ${Math.abs(apart).toFixed(1)} cents too ${which} (${hearing.tuningCents.toFixed(1)} for ${tuningCents!.toFixed(1)})`;
}
