import { betterAuth } from "better-auth";
import { prismaAdapter } from "better-auth/adapters/prisma";
import type { Logger } from "pino";
import { PASSWORD_LENGTH } from "@/lib/contracts/accounts";
import type { Config } from "../config/config";
import type { PrismaClient } from "../db/generated/client";
import { CLIENT_ADDRESS_HEADER } from "../http/clientAddress";
import { newId } from "../newId";
import { withCheckedName } from "./personName";

export interface AuthDeps {
  config: Pick<Config, "publicUrl" | "signUp">;
  db: PrismaClient;
  log: Logger;
  /** Signs the cookies; must stay the same from start to start. */
  secret: string;
  /** Addresses of this server's own pages; the first is its own name for itself. */
  origins: readonly string[];
}

const DAY_SEC = 24 * 60 * 60;

/** Accounts by e-mail and password, with sessions in cookies that no script can read. */
export function createAuth({ config, db, log, secret, origins }: AuthDeps) {
  const secure = config.publicUrl?.startsWith("https:") ?? false;
  return betterAuth({
    appName: "Liftbook",
    baseURL: origins[0],
    basePath: "/api/auth",
    secret,
    trustedOrigins: [...origins],
    database: prismaAdapter(db, { provider: "postgresql", transaction: true }),
    emailAndPassword: {
      enabled: true,
      disableSignUp: config.signUp === "closed",
      minPasswordLength: PASSWORD_LENGTH.min,
      maxPasswordLength: PASSWORD_LENGTH.max,
    },
    databaseHooks: { user: { create: { before: withCheckedName }, update: { before: withCheckedName } } },
    session: { expiresIn: 30 * DAY_SEC, updateAge: DAY_SEC },
    // A whole class behind one address signs in within a minute; a guesser of passwords gets no further than that.
    rateLimit: {
      enabled: true,
      storage: "memory",
      window: 60,
      max: 300,
      customRules: {
        "/sign-in/email": { window: 60, max: 30 },
        "/sign-up/email": { window: 60, max: 30 },
      },
    },
    advanced: {
      useSecureCookies: secure,
      defaultCookieAttributes: { httpOnly: true, sameSite: "lax", secure },
      database: { generateId: newId },
      ipAddress: { ipAddressHeaders: [CLIENT_ADDRESS_HEADER] },
    },
    telemetry: { enabled: false },
    logger: {
      level: "warn",
      log: (level, message, ...more) => log[level === "error" ? "error" : "warn"]({ more }, message),
    },
  });
}

export type Auth = ReturnType<typeof createAuth>;
