/** The average of all channels. One channel is given back as it is, not copied. */
export function toMono(channels: readonly Float32Array<ArrayBuffer>[]): Float32Array<ArrayBuffer> {
  const [first] = channels;
  if (!first) return new Float32Array(0);
  if (channels.length === 1) return first;
  const mono = new Float32Array(first.length);
  for (const channel of channels) for (let i = 0; i < mono.length; i++) mono[i]! += channel[i]!;
  const share = 1 / channels.length;
  for (let i = 0; i < mono.length; i++) mono[i]! *= share;
  return mono;
}
