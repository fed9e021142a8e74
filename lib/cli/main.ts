import type { CommandStreams } from "./CommandStreams";

type Command = (args: readonly string[], streams: CommandStreams) => Promise<number>;

/** Each command is loaded when it is asked for, so that none waits for the others. */
const COMMANDS: Readonly<Record<string, { load: () => Promise<Command>; does: string }>> = {
  analyse: {
    load: async () => (await import("./analyse")).runAnalyse,
    does: "analyse FILE          hears a recording: tuning, key, tempo, beats, chords, bass, sections",
  },
  fit: {
    load: async () => (await import("./fit")).runFit,
    does: "fit FILE              how far notes, a chord or a key agree with a passage (--notes, --chord, --key, --from, --to)",
  },
  hear: {
    load: async () => (await import("./hear")).runHear,
    does: "hear FILE             hears the notes of a passage (--from, --to): pairs, glides, whose they are",
  },
  measure: {
    load: async () => (await import("./measure")).runMeasure,
    does: "measure LABELS FILE   scores the notes heard in a recording against a file of labels",
  },
  place: {
    load: async () => (await import("./place")).runPlace,
    does: "place FILE|-          finds where a part lies on the neck",
  },
  render: {
    load: async () => (await import("./render")).runRender,
    does: "render FILE|- -o WAV  plays a part on the steel into a WAV file",
  },
};

function usage(): string {
  const lines = Object.values(COMMANDS).map(({ does }) => `  ${does}`);
  return ["Usage: npm run -s cli -- COMMAND ...", ...lines, ""].join("\n");
}

async function main(args: readonly string[]): Promise<number> {
  const [name, ...rest] = args;
  if (name === "help" || name === "--help" || name === "-h") {
    process.stdout.write(usage());
    return 0;
  }
  const command = name !== undefined && Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (!command) {
    if (name !== undefined) process.stderr.write(`There is no command "${name}".\n`);
    process.stderr.write(usage());
    return 2;
  }
  return (await command.load())(rest, process);
}

// Not process.exit: what is printed to a pipe must arrive first.
process.exitCode = await main(process.argv.slice(2));
