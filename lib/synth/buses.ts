/** Steel goes out by itself, so that it can be weighed against the record. */
export const BUSES = { steel: 0, band: 1 } as const;
