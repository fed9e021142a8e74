import { closeSync, fsyncSync, openSync, writeSync } from "node:fs";
import type { EarCopyTarget } from "./EarCopyMaker";

/** A copy on its way to disk. It is written without waiting, so it belongs in threads that decode. */
export class EarCopyFile implements EarCopyTarget {
  private readonly file: number;

  /** @param path written anew */
  constructor(path: string) {
    this.file = openSync(path, "w");
  }

  append(bytes: Uint8Array): void {
    this.write(bytes, null);
  }

  rewriteStart(bytes: Uint8Array): void {
    this.write(bytes, 0);
  }

  close(): void {
    fsyncSync(this.file);
    closeSync(this.file);
  }

  private write(bytes: Uint8Array, at: number | null): void {
    for (let done = 0; done < bytes.length; ) {
      done += writeSync(this.file, bytes, done, bytes.length - done, at === null ? null : at + done);
    }
  }
}
