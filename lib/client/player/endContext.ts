/** A worklet hears of its end with the next portion, some milliseconds on; a busy machine takes longer. */
export const WORKLETS_END_MS = 250;

/**
 * Ends a context: silent at once, closed when its worklets have had time to end. In Chromium a worklet's node whose processor
 * still runs when its context is closed stays, with the context and all that is connected, for as long as the page stands
 * (`AudioWorkletNode::HasPendingActivity`; seen in heap snapshots).
 * @param last the node before the ears
 */
export function endContext(context: Pick<AudioContext, "close">, last: Pick<AudioNode, "disconnect">): void {
  last.disconnect();
  setTimeout(() => void context.close(), WORKLETS_END_MS);
}
