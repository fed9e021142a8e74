/** Who decodes: our own readers, a decoder package, or the system's ffmpeg. */
export type Container = "wav" | "aiff" | "mp3" | "flac" | "ogg-vorbis" | "opus" | "ffmpeg";

export interface AudioFormat {
  /** As people call it. */
  words: string;
  container: Container;
  /** The media type to store and serve it under. */
  mediaType: string;
  /** Endings of file names that promise this format. */
  endings: readonly string[];
  /** Media types that promise it, beside `mediaType`. */
  otherMediaTypes: readonly string[];
  /** Whether present browsers play it as it is. */
  playableInBrowsers: boolean;
  /** The one demuxer that ffmpeg may use on it (its `-f` name); null where ffmpeg is never asked. */
  demuxer: string | null;
}

const own = { demuxer: null, playableInBrowsers: true } as const;
const byFfmpeg = { container: "ffmpeg", otherMediaTypes: [], playableInBrowsers: false } as const;

/** Every format that is taken. Media types as registered with IANA, and the unregistered ones browsers send. */
export const FORMATS = {
  wav: {
    ...own,
    words: "WAV",
    container: "wav",
    mediaType: "audio/wav",
    endings: ["wav", "wave", "bwf", "rf64"],
    otherMediaTypes: ["audio/x-wav", "audio/wave", "audio/vnd.wave", "audio/x-pn-wav"],
    demuxer: "wav",
  },
  aiff: {
    ...own,
    words: "AIFF",
    container: "aiff",
    mediaType: "audio/aiff",
    endings: ["aif", "aiff", "aifc"],
    otherMediaTypes: ["audio/x-aiff", "audio/aifc", "audio/x-aifc"],
    playableInBrowsers: false,
    demuxer: "aiff",
  },
  mp3: {
    ...own,
    words: "MP3",
    container: "mp3",
    mediaType: "audio/mpeg",
    endings: ["mp3", "mp2", "mpga"],
    otherMediaTypes: ["audio/mp3", "audio/x-mp3", "audio/x-mpeg", "audio/mpeg3"],
  },
  flac: {
    ...own,
    words: "FLAC",
    container: "flac",
    mediaType: "audio/flac",
    endings: ["flac"],
    otherMediaTypes: ["audio/x-flac"],
  },
  "ogg-vorbis": {
    ...own,
    words: "Ogg Vorbis",
    container: "ogg-vorbis",
    mediaType: "audio/ogg",
    endings: ["ogg", "oga"],
    otherMediaTypes: ["application/ogg", "audio/vorbis", "video/ogg"],
  },
  opus: {
    ...own,
    words: "Opus",
    container: "opus",
    mediaType: "audio/ogg",
    endings: ["opus", "ogg", "oga"],
    otherMediaTypes: ["audio/opus", "application/ogg", "video/ogg"],
  },
  "ogg-flac": {
    ...own,
    words: "Ogg FLAC",
    container: "flac",
    mediaType: "audio/ogg",
    endings: ["ogg", "oga", "flac"],
    otherMediaTypes: ["application/ogg", "audio/flac", "audio/x-flac"],
  },
  mp4: {
    ...byFfmpeg,
    words: "MP4 (M4A)",
    mediaType: "audio/mp4",
    endings: ["m4a", "mp4", "m4b", "m4r", "mov", "3gp", "aac"],
    otherMediaTypes: ["audio/x-m4a", "audio/m4a", "audio/aac", "video/mp4", "video/quicktime", "audio/3gpp"],
    playableInBrowsers: true,
    demuxer: "mov",
  },
  matroska: {
    ...byFfmpeg,
    words: "WebM",
    mediaType: "audio/webm",
    endings: ["webm", "weba", "mka", "mkv"],
    otherMediaTypes: ["video/webm", "audio/x-matroska", "video/x-matroska"],
    playableInBrowsers: true,
    demuxer: "matroska",
  },
  adts: {
    ...byFfmpeg,
    words: "AAC",
    mediaType: "audio/aac",
    endings: ["aac", "m4a"],
    otherMediaTypes: ["audio/aacp", "audio/x-aac", "audio/x-hx-aac-adts"],
    playableInBrowsers: true,
    demuxer: "aac",
  },
  asf: {
    ...byFfmpeg,
    words: "Windows Media",
    mediaType: "audio/x-ms-wma",
    endings: ["wma", "asf", "wmv"],
    otherMediaTypes: ["video/x-ms-asf", "video/x-ms-wmv"],
    demuxer: "asf",
  },
  caf: { ...byFfmpeg, words: "Core Audio", mediaType: "audio/x-caf", endings: ["caf"], demuxer: "caf" },
  au: {
    ...byFfmpeg,
    words: "AU",
    mediaType: "audio/basic",
    endings: ["au", "snd"],
    otherMediaTypes: ["audio/au", "audio/x-au"],
    demuxer: "au",
  },
  wave64: { ...byFfmpeg, words: "Wave64", mediaType: "audio/x-w64", endings: ["w64"], demuxer: "w64" },
  wavpack: { ...byFfmpeg, words: "WavPack", mediaType: "audio/x-wavpack", endings: ["wv"], demuxer: "wv" },
  ape: { ...byFfmpeg, words: "Monkey's Audio", mediaType: "audio/x-ape", endings: ["ape"], demuxer: "ape" },
} as const satisfies Record<string, AudioFormat>;

export type FormatName = keyof typeof FORMATS;

export const FORMAT_NAMES = Object.keys(FORMATS) as FormatName[];

export function formatOf(name: FormatName): AudioFormat {
  return FORMATS[name];
}
