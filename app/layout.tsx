import "@fontsource-variable/newsreader/wght.css";
import "@fontsource-variable/newsreader/wght-italic.css";
import "@fontsource-variable/source-sans-3/wght.css";
import "@fontsource/ibm-plex-mono/400.css";
import "@fontsource/ibm-plex-mono/500.css";
import "@fontsource/ibm-plex-mono/600.css";
import type { Metadata, Viewport } from "next";
import type { ReactNode } from "react";
import "./tokens.css";
import "./global.css";

export const metadata: Metadata = {
  title: { default: "Liftbook", template: "%s · Liftbook" },
  description: "A shared notebook for working out steel guitar parts by ear from records.",
  icons: { icon: "/icon.svg", apple: "/icons/apple-180.png" },
  appleWebApp: { title: "Liftbook" },
};

// Each answer's scripts carry a nonce of their own (lib/server/http/securityHeaders.ts), so none is made ahead.
export const dynamic = "force-dynamic";

export const viewport: Viewport = {
  width: "device-width",
  initialScale: 1,
  colorScheme: "light dark",
  // The ground of each theme (tokens.css).
  themeColor: [
    { media: "(prefers-color-scheme: light)", color: "#faf6ec" },
    { media: "(prefers-color-scheme: dark)", color: "#171512" },
  ],
};

export default function Layout({ children }: { children: ReactNode }) {
  return (
    <html lang="en" suppressHydrationWarning>
      <head>
        <script src="/theme.js" />
      </head>
      <body>{children}</body>
    </html>
  );
}
