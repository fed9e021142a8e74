import { z } from "zod";

/** One setting: an environment variable, what it means, and what holds without it. */
export interface Setting<T> {
  /** Reads the variable's text. */
  schema: z.ZodType<T, string>;
  /** The text that stands in where the variable is not set or is empty; null where nothing does. */
  fallback: string | null;
  /** What the text must be, to finish the sentence "it must be ...". */
  mustBe: string;
  /** What the setting does, as the README's table says it. */
  meaning: string;
}

const wholeNumber = (from: number, to: number) => ({
  schema: z
    .string()
    .regex(/^\d+$/)
    .transform(Number)
    .refine((value) => value >= from && value <= to),
  mustBe: `a whole number from ${from} to ${to}`,
});

const oneOf = <const T extends string>(...words: [T, ...T[]]) => ({
  schema: z.string().pipe(z.enum(words)) as unknown as z.ZodType<T, string>,
  mustBe: `one of ${words.join(", ")}`,
});

const address = (...protocols: string[]) => ({
  schema: z.string().refine((text) => {
    const url = URL.canParse(text) ? new URL(text) : null;
    return url !== null && protocols.includes(url.protocol);
  }),
  mustBe: `an address that begins with ${protocols.map((protocol) => `${protocol}//`).join(" or ")}`,
});

const anyText = z.string().min(1);

/** Every setting of Liftbook, by the name of its environment variable. */
export const SETTINGS = {
  HOST: {
    schema: anyText,
    fallback: "127.0.0.1",
    mustBe: "the address of a network interface",
    meaning: "Interface to listen on. Loopback unless told otherwise; `0.0.0.0` opens all.",
  },
  PORT: {
    ...wholeNumber(0, 65535),
    fallback: "4280",
    meaning: "Port to listen on; `0` takes any free one.",
  },
  LIFTBOOK_URL: {
    ...address("http:", "https:"),
    fallback: null,
    meaning:
      "The address people type, as in `https://lift.example.org`. Needed behind a proxy; with https, cookies travel by https only.",
  },
  LIFTBOOK_DATA: {
    schema: anyText,
    fallback: ".liftbook",
    mustBe: "a folder",
    meaning:
      "Folder that holds everything: database, recordings, secrets. Relative to Liftbook's own folder.",
  },
  DATABASE_URL: {
    ...address("postgresql:", "postgres:"),
    fallback: null,
    meaning: "A PostgreSQL (14 or newer) of yours to use in place of the one that Liftbook brings.",
  },
  LIFTBOOK_SIGN_UP: {
    ...oneOf("open", "closed"),
    fallback: "open",
    meaning: "Whether anyone who reaches the server may make an account (`open`) or nobody (`closed`).",
  },
  LIFTBOOK_DEMO: {
    ...oneOf("auto", "on", "off"),
    fallback: "auto",
    meaning:
      "Whether an empty Liftbook gets the demo book. `auto`: only while it listens on loopback and `LIFTBOOK_URL` is not set.",
  },
  LIFTBOOK_MAX_UPLOAD_MB: {
    ...wholeNumber(1, 2047),
    fallback: "200",
    meaning: "Largest recording taken, in megabytes (10^6 bytes).",
  },
  LIFTBOOK_MAX_MINUTES: {
    ...wholeNumber(1, 240),
    fallback: "20",
    meaning: "Longest recording taken, in minutes.",
  },
  LIFTBOOK_HEARING_WORKERS: {
    ...wholeNumber(1, 32),
    fallback: "1",
    meaning: "How many recordings are heard at the same time.",
  },
  LIFTBOOK_FFMPEG: {
    schema: anyText,
    fallback: "ffmpeg",
    mustBe: "the name or path of a program, or `off`",
    meaning: "The ffmpeg that reads the rarer kinds of recordings, where there is one; `off` leaves it out.",
  },
  LIFTBOOK_LOG: {
    ...oneOf("silent", "error", "warn", "info", "debug"),
    fallback: "warn",
    meaning: "How much the server says on the error stream, as JSON lines.",
  },
} as const satisfies Record<string, Setting<unknown>>;

export type SettingName = keyof typeof SETTINGS;

/** The settings as a Markdown table, for the README. */
export function settingsTable(): string {
  const rows = Object.entries(SETTINGS).map(([name, setting]) => {
    const fallback = setting.fallback === null ? "not set" : `\`${setting.fallback}\``;
    return `| \`${name}\` | ${fallback} | ${setting.meaning} |`;
  });
  return ["| variable | default | meaning |", "| --- | --- | --- |", ...rows].join("\n");
}
