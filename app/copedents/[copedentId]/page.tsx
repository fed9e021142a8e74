import type { Metadata } from "next";
import { cache } from "react";
import { Masthead } from "@/app/parts/Masthead";
import { orNotFound, signedIn } from "@/app/signedIn";
import { pages } from "@/lib/contracts/api";
import { writeChart } from "@/lib/instrument/chart/writeChart";
import { findCopedent } from "@/lib/instrument/copedentCatalog";
import { house } from "@/lib/server/house";
import { readCopedent } from "@/lib/server/services/readCopedent";
import { CopedentDesk } from "./parts/CopedentDesk";
import { SharingProvider } from "./parts/Sharing";

interface Props {
  params: Promise<{ copedentId: string }>;
}

/** Read once a request, for the title and for the page. The ids of presets are short names, unlike those of players' own. */
const openCopedent = cache(async (copedentId: string) => {
  const actor = await signedIn(pages.copedent(copedentId));
  const preset = findCopedent(copedentId);
  if (preset) return { actor, chart: writeChart(preset), kept: null };
  const kept = await orNotFound(readCopedent(house().db, actor, copedentId));
  return { actor, chart: kept.chart, kept };
});

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: (await openCopedent((await params).copedentId)).chart.name };
}

export default async function CopedentRoute({ params }: Props) {
  const { actor, chart, kept } = await openCopedent((await params).copedentId);
  return (
    <>
      <Masthead name={actor.name} />
      {kept ? (
        <SharingProvider key={kept.id} kept={kept}>
          <CopedentDesk key={kept.revision} chart={chart} kept={kept} />
        </SharingProvider>
      ) : (
        <CopedentDesk chart={chart} kept={null} />
      )}
    </>
  );
}
