import { bandRange } from "./BandFocus";
import type { OutputChain } from "./outputChain";
import type { PlayerState } from "./PlayerState";

const CLICK_GAIN = 0.9;

/** Brings the way to the ears to what the player says: levels, what is muted, and what of the record is heard. */
export function applyToChain(chain: OutputChain, state: PlayerState): void {
  const { listening, level, isMuted, isOnNotes, clickLevel, shiftCents } = state;
  chain.setLevel(level);
  chain.setMuted(isMuted && !isOnNotes);
  chain.clicks.gain.setTargetAtTime(CLICK_GAIN * clickLevel, chain.context.currentTime, 0.01);
  chain.channels.set(listening.channels, listening.balance);
  chain.band.set(bandRange(listening.band, listening.ownBand, shiftCents));
}
