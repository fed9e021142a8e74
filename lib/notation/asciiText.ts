const PLAIN_SIGNS: Readonly<Record<string, string>> = {
  "♯": "#",
  "♭": "b",
  "‘": "'",
  "’": "'",
  "“": '"',
  "”": '"',
  "–": "-",
  "—": "-",
  "−": "-",
  "…": "...",
  ß: "ss",
  ø: "o",
  Ø: "O",
  æ: "ae",
  Æ: "AE",
  ł: "l",
  Ł: "L",
};

/**
 * A text in printable ASCII on one line: accents are taken off, typographic signs become their plain forms,
 * anything else becomes `?`.
 */
export function toAscii(text: string): string {
  const plain = Array.from(text, (sign) => PLAIN_SIGNS[sign] ?? sign).join("");
  return plain
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replace(/\s+/g, " ")
    .replace(/[^ -~]/gu, "?")
    .trim();
}

/** Breaks a text at spaces into lines of at most `width` columns; later lines begin with `indent`. */
export function wrapWords(text: string, width: number, indent = ""): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (longer.length > width && line.trim() !== "") {
      lines.push(line);
      line = indent + word;
    } else {
      line = longer;
    }
  }
  return [...lines, line];
}
