import type { MetadataRoute } from "next";
import { pages } from "@/lib/contracts/api";

/** How Liftbook is installed as an app of its own (Web Application Manifest). */
export default function manifest(): MetadataRoute.Manifest {
  return {
    id: "/",
    name: "Liftbook",
    short_name: "Liftbook",
    description: "A shared notebook for working out steel guitar parts by ear from records.",
    start_url: pages.books(),
    scope: "/",
    display: "standalone",
    // The ground of the light theme (app/tokens.css): an app shows it until its first page is there, which names its own.
    background_color: "#faf6ec",
    theme_color: "#faf6ec",
    icons: [
      { src: "/icon.svg", sizes: "any", type: "image/svg+xml" },
      { src: "/icons/icon-192.png", sizes: "192x192", type: "image/png" },
      { src: "/icons/icon-512.png", sizes: "512x512", type: "image/png" },
      { src: "/icons/maskable-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
    ],
  };
}
