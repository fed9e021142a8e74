import path from "node:path";
import type { z } from "zod";
import { SETTINGS, type SettingName } from "./settings";

type Read = { [Name in SettingName]: z.output<(typeof SETTINGS)[Name]["schema"]> | null };

/** What the settings (settings.ts) come to, checked. */
export interface Config {
  host: string;
  /** 0 for any free port. */
  port: number;
  /** The address people type, without a slash at its end; null where none is set. */
  publicUrl: string | null;
  /** Absolute. */
  dataFolder: string;
  /** Null for the PostgreSQL that Liftbook brings. */
  databaseUrl: string | null;
  signUp: "open" | "closed";
  demo: "auto" | "on" | "off";
  maxUploadBytes: number;
  maxDurationSec: number;
  hearingWorkers: number;
  /** Name or path; null where ffmpeg must not be used. */
  ffmpeg: string | null;
  logLevel: "silent" | "error" | "warn" | "info" | "debug";
}

/** Settings that cannot be used; the message names each variable, what it holds and what it must be. */
export class ConfigError extends Error {
  override readonly name = "ConfigError";
}

// Values that may hold a password must not be printed.
const SECRET: readonly SettingName[] = ["DATABASE_URL"];

function readSettings(env: Readonly<Record<string, string | undefined>>): Read {
  const faults: string[] = [];
  const read: Record<string, unknown> = {};
  for (const [name, setting] of Object.entries(SETTINGS) as [SettingName, (typeof SETTINGS)[SettingName]][]) {
    const text = env[name]?.trim() || setting.fallback;
    if (text === null) {
      read[name] = null;
      continue;
    }
    const result = setting.schema.safeParse(text);
    if (result.success) read[name] = result.data;
    else {
      const shown = SECRET.includes(name) ? "set to something else" : `"${text}"`;
      faults.push(`${name} is ${shown}; it must be ${setting.mustBe}.`);
    }
  }
  if (faults.length > 0) throw new ConfigError(faults.join("\n"));
  return read as Read;
}

/**
 * Reads every setting from the environment.
 * @param ownFolder the folder Liftbook is installed in; a relative data folder is taken from there
 * @throws {ConfigError} naming every variable that cannot be used
 */
export function readConfig(env: Readonly<Record<string, string | undefined>>, ownFolder: string): Config {
  const read = readSettings(env);
  const megabyte = 1_000_000;
  return {
    host: read.HOST!,
    port: read.PORT!,
    publicUrl: read.LIFTBOOK_URL?.replace(/\/+$/, "") ?? null,
    dataFolder: path.resolve(ownFolder, read.LIFTBOOK_DATA!),
    databaseUrl: read.DATABASE_URL,
    signUp: read.LIFTBOOK_SIGN_UP!,
    demo: read.LIFTBOOK_DEMO!,
    maxUploadBytes: read.LIFTBOOK_MAX_UPLOAD_MB! * megabyte,
    maxDurationSec: read.LIFTBOOK_MAX_MINUTES! * 60,
    hearingWorkers: read.LIFTBOOK_HEARING_WORKERS!,
    ffmpeg: read.LIFTBOOK_FFMPEG === "off" ? null : read.LIFTBOOK_FFMPEG,
    logLevel: read.LIFTBOOK_LOG!,
  };
}
