/** Parts go out by themselves, so that they can be weighed against the record. */
export const BUSES = { parts: 0, band: 1 } as const;
