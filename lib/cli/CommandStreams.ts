/** The streams that a command reads and writes. */
export interface CommandStreams {
  stdin: AsyncIterable<Buffer | string>;
  stdout: { write(text: string): unknown };
  stderr: { write(text: string): unknown };
}
