/** Name under which the record's player is registered with the audio thread. */
export const RECORD_PROCESSOR = "liftbook-record";
/** Where the start puts the audio thread's own code (lib/cli/start/bundleWorklets.ts). */
export const RECORD_URL = "/sound/record.js";
