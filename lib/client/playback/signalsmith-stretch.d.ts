/** The package brings no types; it is imported for what it registers (stretchWasm.ts). */
declare module "signalsmith-stretch";
