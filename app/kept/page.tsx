import type { Metadata } from "next";
import { KeptHere } from "./parts/KeptHere";

export const metadata: Metadata = { title: "Kept in this browser" };

/** Nothing in it is anyone's: the service worker keeps it, and gives it out for every page while the server is not reached. */
export default function KeptRoute() {
  return <KeptHere />;
}
