/**
 * Every error a person can meet, in one table: the HTTP status it travels under and the words shown. Each
 * message says what happened, what was kept, and what to do next. `{name}` is filled from the details.
 */
export const ERRORS = {
  // People and books
  "not-signed-in": { status: 401, message: "You are not signed in. Sign in and try again." },
  // One answer for "no such thing" and "not yours", so that nobody outside a book learns that it exists.
  "not-found": { status: 404, message: "There is nothing at this address that you may open." },
  "not-allowed": { status: 403, message: "Your role in this book does not allow that. Nothing was changed." },
  "bad-request": { status: 400, message: "That request could not be read: {detail}. Nothing was changed." },
  "body-too-large": {
    status: 413,
    message:
      "What was sent is larger than {limit}, so it was not read. Nothing was changed. Send less, or in several goes.",
  },
  "wrong-origin": { status: 403, message: "That request came from another site and was refused." },
  "not-yours": {
    status: 403,
    message:
      "This guitar is {owner}'s and can only be looked at. Nothing was changed. Make a copy and change that.",
  },
  "changed-elsewhere": {
    status: 409,
    message:
      "This guitar was changed in another window meanwhile. Nothing was written over. Load the page anew to see it, or keep what you have here as a copy.",
  },
  "invite-over": {
    status: 410,
    message: "This invitation has run out or was taken back. Ask whoever sent it for a new link.",
  },
  "too-many-tries": { status: 429, message: "Too many tries. Wait a minute, then try again." },
  // Recordings
  "too-large": {
    status: 413,
    message: "That file is larger than {limit}. Nothing was kept. Cut it shorter, or save it as MP3 or FLAC.",
  },
  "too-long": {
    status: 422,
    message: "That recording runs longer than {limit}. Nothing was kept. Cut out the song and add it again.",
  },
  "not-audio": {
    status: 422,
    message: "That file holds no sound that can be read. Nothing was kept. Choose an audio file.",
  },
  empty: { status: 422, message: "That file is empty. Nothing was kept. Check the file where it came from." },
  "cut-short": {
    status: 422,
    message:
      "That recording is cut short: it says it holds more than it does. Nothing was kept. Copy it again from where it came.",
  },
  "wrong-type": {
    status: 422,
    message:
      "That file is named as {declared} but is {found}. Nothing was kept. Give it its right ending and add it again.",
  },
  damaged: {
    status: 422,
    message:
      "That recording is damaged and could not be read to its end. Nothing was kept. Copy it again from where it came.",
  },
  silent: {
    status: 422,
    message:
      "That recording is silent from start to end. Nothing was kept. Check that the right file was chosen.",
  },
  "needs-ffmpeg": {
    status: 422,
    message:
      "This server cannot read that kind of file, and your browser could not either. Nothing was kept. Save it as MP3, FLAC or WAV and add it again.",
  },
  "time-limit": {
    status: 422,
    message:
      "Reading that recording took too long and was stopped. Nothing was kept. Save it as MP3 or WAV and add it again.",
  },
  "upload-broken": {
    status: 400,
    message: "The upload stopped before its end. Nothing was kept. Add the file again.",
  },
  // Takes
  "take-too-long": {
    status: 413,
    message:
      "That take runs longer than {limit}, so it was not kept on the server. It stays in the browser that recorded it. Record a shorter stretch.",
  },
  "take-damaged": {
    status: 422,
    message:
      "The sound of that take did not arrive as it was recorded. Nothing was kept on the server. It stays in the browser that recorded it; try again.",
  },
  // Hearing
  "already-hearing": { status: 409, message: "This song is being heard already." },
  "hearing-failed": {
    status: 500,
    message:
      "Hearing stopped with a fault. The record and everything inked are kept. Hear it again, or work on without.",
  },
  "no-ear-copy": {
    status: 404,
    message:
      "The copy of this record that passages are heard from is not made yet. Nothing was changed. Ask for the notes again, and it is made.",
  },
  "ear-copy-failed": {
    status: 500,
    message:
      "The copy of this record that passages are heard from could not be made. The record and everything written are kept. Try again, or have the whole song heard.",
  },
  "no-ear": {
    status: 404,
    message:
      "This house has no learned ear, which it takes to hear notes. Nothing was changed. Whoever runs this server can install one.",
  },
  "ear-damaged": {
    status: 500,
    message:
      "The ear's weights are damaged on this server, so no notes can be heard. Everything written is kept. Whoever runs it can mend them by installing Liftbook anew.",
  },
  // Anything else
  "server-fault": {
    status: 500,
    message:
      "Something went wrong here. What was saved is kept. Try again; if it happens again, tell whoever runs this server ({incident}).",
  },
} as const satisfies Record<string, { status: number; message: string }>;

export type ErrorCode = keyof typeof ERRORS;

/** What an error answer carries: `{ "error": { "code", "message" } }`. */
export interface ErrorBody {
  error: { code: ErrorCode; message: string };
}

/** The words for a code, with `{name}` filled from the details. */
export function errorMessage(code: ErrorCode, details: Readonly<Record<string, string>> = {}): string {
  return ERRORS[code].message.replace(/\{(\w+)\}/g, (whole, name: string) => details[name] ?? whole);
}
