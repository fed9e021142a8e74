/**
 * Stands in the browser for Node's Buffer (`next.config.ts`). lib0 names that in functions for Node alone, and for the name Next
 * would send a stand-in of 7 KB, compressed, with every song page.
 */
export const Buffer = undefined;
