/**
 * In place of `lib/client/player/outputChain`: a way to the ears that goes nowhere, for what plays without a sound card.
 * @param nodes those of its nodes that a test looks at
 */
export function silentOutput(nodes: object = {}) {
  return {
    METER_SIZE: 16,
    openOutputChain: () => ({
      context: { currentTime: 0, createMediaElementSource: () => ({ connect() {} }) },
      clicks: { gain: { setTargetAtTime() {} } },
      channels: { set() {} },
      band: { set() {} },
      setMuted() {},
      setLevel() {},
      readOutput() {},
      resume: async () => {},
      close() {},
      ...nodes,
    }),
  };
}
