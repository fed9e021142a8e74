import { readFile } from "node:fs/promises";
import path from "node:path";
import { describe, expect, test } from "vitest";
import { ConfigError, readConfig } from "@/lib/server/config/config";
import { SETTINGS, settingsTable } from "@/lib/server/config/settings";
import { OWN_FOLDER } from "../testHouse";

function faultOf(env: Record<string, string>): string {
  try {
    readConfig(env, "/srv/liftbook");
  } catch (fault) {
    expect(fault).toBeInstanceOf(ConfigError);
    return (fault as Error).message;
  }
  return "accepted";
}

describe("settings", () => {
  test("hold their defaults where nothing is set", () => {
    expect(readConfig({}, "/srv/liftbook")).toEqual({
      host: "127.0.0.1",
      port: 4280,
      publicUrl: null,
      dataFolder: "/srv/liftbook/.liftbook",
      databaseUrl: null,
      signUp: "open",
      demo: "auto",
      maxUploadBytes: 200_000_000,
      maxDurationSec: 1200,
      hearingWorkers: 1,
      ffmpeg: "ffmpeg",
      logLevel: "warn",
    });
  });

  test("are read from the environment", () => {
    const config = readConfig(
      {
        LIFTBOOK_DATA: "/var/lib/liftbook",
        LIFTBOOK_URL: "https://lift.example.org/",
        LIFTBOOK_MAX_MINUTES: "3",
        LIFTBOOK_FFMPEG: "off",
        PORT: " 0 ",
        HOST: "",
      },
      "/srv/liftbook",
    );
    expect(config).toMatchObject({
      dataFolder: "/var/lib/liftbook",
      publicUrl: "https://lift.example.org",
      maxDurationSec: 180,
      ffmpeg: null,
      port: 0,
      host: "127.0.0.1",
    });
  });

  test.each([
    ["PORT", "http"],
    ["PORT", "65536"],
    ["PORT", "-1"],
    ["LIFTBOOK_MAX_UPLOAD_MB", "0"],
    ["LIFTBOOK_MAX_UPLOAD_MB", "1e3"],
    ["LIFTBOOK_MAX_MINUTES", "ten"],
    ["LIFTBOOK_HEARING_WORKERS", "1.5"],
    ["LIFTBOOK_URL", "lift.example.org"],
    ["LIFTBOOK_DEMO", "yes"],
    ["LIFTBOOK_SIGN_UP", "invited"],
    ["LIFTBOOK_LOG", "loud"],
  ] as const)("%s=%s is refused with its name, its value and what it must be", (name, value) => {
    expect(faultOf({ [name]: value })).toBe(`${name} is "${value}"; it must be ${SETTINGS[name].mustBe}.`);
  });

  test("all faults are told at once, and no password is shown", () => {
    const message = faultOf({ PORT: "x", LIFTBOOK_DEMO: "y", DATABASE_URL: "mysql://me:hunter2@db" });
    expect(message.split("\n")).toHaveLength(3);
    expect(message).toMatch(
      /DATABASE_URL is set to something else; it must be an address that begins with postgres/,
    );
    expect(message).not.toContain("hunter2");
  });

  test("stand in the README as they are", async () => {
    const readme = await readFile(path.join(OWN_FOLDER, "README.md"), "utf8");
    const table = /<!-- settings -->([\s\S]*)<!-- \/settings -->/.exec(readme)?.[1];
    expect(table?.trim()).toBe(settingsTable());
  });
});
