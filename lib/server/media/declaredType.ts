import { FORMAT_NAMES, type FormatName, formatOf } from "./formats";

/** What a file came under. */
export interface Declared {
  fileName: string;
  /** As a browser or a request named it; parameters such as `; codecs=` are allowed. */
  mediaType?: string | null;
}

/** Media types that promise nothing. */
const ANY_TYPE = new Set(["", "application/octet-stream", "binary/octet-stream", "application/x-binary"]);
/** Endings that promise something other than sound. */
const OTHER_ENDINGS: Readonly<Record<string, string>> = {
  txt: "text",
  md: "text",
  csv: "text",
  html: "a web page",
  pdf: "PDF",
  doc: "a document",
  docx: "a document",
  png: "a picture",
  jpg: "a picture",
  jpeg: "a picture",
  gif: "a picture",
  webp: "a picture",
  svg: "a picture",
  zip: "an archive",
  mid: "MIDI",
  midi: "MIDI",
  exe: "a program",
};

function endingOf(fileName: string): string {
  return /\.([^./\\]+)$/.exec(fileName)?.[1]?.toLowerCase() ?? "";
}

function promisedBy(test: (name: FormatName) => boolean): FormatName[] {
  return FORMAT_NAMES.filter(test);
}

/**
 * What a record's name or media type wrongly promises, in words; null where nothing contradicts the bytes. A name
 * without an ending, an ending nobody knows, and `application/octet-stream` promise nothing.
 */
export function falsePromise({ fileName, mediaType }: Declared, found: FormatName): string | null {
  const ending = endingOf(fileName);
  const other = OTHER_ENDINGS[ending];
  if (other !== undefined) return other;
  const byEnding = promisedBy((name) => formatOf(name).endings.includes(ending));
  if (byEnding.length > 0 && !byEnding.includes(found)) return formatOf(byEnding[0]!).words;
  const type = (mediaType ?? "").split(";")[0]!.trim().toLowerCase();
  if (ANY_TYPE.has(type)) return null;
  const byType = promisedBy(
    (name) => formatOf(name).mediaType === type || formatOf(name).otherMediaTypes.includes(type),
  );
  if (byType.length > 0) return byType.includes(found) ? null : formatOf(byType[0]!).words;
  // Unknown names for sound promise no format; text/plain or image/png do.
  return type.startsWith("audio/") || type.startsWith("video/") ? null : type;
}
