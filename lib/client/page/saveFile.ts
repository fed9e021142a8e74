/** Gives the browser a file to save, as a download. What a file's name cannot hold is left out of the title. */
export function saveFile({
  title,
  ending,
  text,
}: {
  title: string;
  ending: "txt" | "json";
  text: string;
}): void {
  const type = ending === "json" ? "application/json" : "text/plain;charset=utf-8";
  saveBlob({ title, ending, blob: new Blob([text], { type }) });
}

/** The same with bytes. */
export function saveBlob({ title, ending, blob }: { title: string; ending: string; blob: Blob }): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement("a");
  link.href = url;
  link.download = `${title.replace(/[^\p{L}\p{N} .,-]+/gu, "").trim() || "liftbook"}.${ending}`;
  link.click();
  URL.revokeObjectURL(url);
}
