import type { Semitones } from "@/lib/units/quantities";
import type { Certainty, GlideKind } from "../Hearing";
import { logOdds } from "../logOdds";

/** What another string that sounds before a glide does at the same time. */
export interface OtherString {
  /** Semitones that it moves, up or down; 0 where it is held. */
  interval: Semitones;
  /** How likely it is the steel's own string. */
  steel: Certainty;
}

/** Pedals and levers pull a string by a whole tone, now and then by a minor third (common practice, no source). */
const FARTHEST_PEDAL = 3.5;
/** Intervals that differ by less are alike: the bar is not always straight, and strings are tempered. */
const ALIKE = 0.5;

/**
 * How likely another string of the steel is held, moves alike or moves otherwise, under a pedal and under the bar.
 * The bar lies over all strings, so one that is held or goes another way is nearly ruled out; a pedal now and then
 * pulls two strings alike. Set here, no source.
 */
const UNDER_PEDAL = { held: 0.6, alike: 0.25, otherwise: 0.15 };
const UNDER_BAR = { held: 0.05, alike: 0.9, otherwise: 0.05 };
/** The same of what is not the steel's: it hardly ever moves. */
const OF_THE_BAND = { held: 0.9, alike: 0.05, otherwise: 0.05 };

/** A kind is told where it is so many times as likely as the other. */
const TOLD_FROM = 1.2;
/** And so many times where nothing else sounds: then the learned ear has only habit to go by. Set here. */
const TOLD_ALONE_FROM = 6;

/** What the learned ear says is taken for no surer than this. */
const SUREST_SAID = 0.001;

/**
 * What moved a string, by Bayes' rule over what the others do, each weighed by how likely it is the steel's: one
 * voice that moves against a held one takes a pedal or lever, voices that all move alike the bar. A string alone
 * cannot tell, unless it goes farther than a pedal pulls. What the learned ear says of the glide by itself comes first.
 * @param interval semitones that the string moves
 * @param others what else sounds before the glide and goes on after it
 * @param said how likely the learned ear takes it for a pedal's; null where it does not tell
 */
export function mechanismOf(
  interval: Semitones,
  others: readonly OtherString[],
  said: Certainty | null,
): GlideKind {
  if (Math.abs(interval) > FARTHEST_PEDAL) return "bar";
  let odds = said === null ? 1 : Math.exp(logOdds(said, SUREST_SAID));
  for (const other of others) {
    const does =
      other.interval === 0 ? "held" : Math.abs(other.interval - interval) < ALIKE ? "alike" : "otherwise";
    const band = (1 - other.steel) * OF_THE_BAND[does];
    odds *= (other.steel * UNDER_PEDAL[does] + band) / (other.steel * UNDER_BAR[does] + band);
  }
  const from = others.length > 0 ? TOLD_FROM : TOLD_ALONE_FROM;
  if (odds >= from) return "pedal";
  return odds <= 1 / from ? "bar" : "unsure";
}
