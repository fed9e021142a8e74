import { useEffect, useState, useSyncExternalStore } from "react";
import { api } from "@/lib/contracts/api";
import { whenIdle } from "../../page/whenIdle";
import { EarCopy } from "../../record/EarCopy";
import { EarWorker } from "./EarWorker";
import { PassageHearer, type PassageState } from "./PassageHearer";

/** The ear is made ready once the page has had this long for itself. */
const WARM_AFTER_MS = 1_500;

/**
 * What hears passages of a song, for as long as the page shows it; null until it is there.
 * @param mayWant whether passages may be heard here: the ear is then made ready while nothing else is done
 */
export function usePassageHearer(songId: string, mayWant: boolean): PassageHearer | null {
  const [hearer, setHearer] = useState<PassageHearer | null>(null);

  useEffect(() => {
    const opened = new PassageHearer(new EarCopy(api.earCopy(songId)), new EarWorker());
    setHearer(opened);
    return () => opened.close();
  }, [songId]);

  useEffect(() => {
    if (!hearer || !mayWant || isSparing()) return;
    return whenIdle(() => hearer.warm(), WARM_AFTER_MS);
  }, [hearer, mayWant]);

  return hearer;
}

const NOTHING: PassageState = { underWay: null, fault: null };
const nothing = () => NOTHING;
const never = () => () => {};

/** What is being heard now. */
export function usePassageState(hearer: PassageHearer | null): PassageState {
  return useSyncExternalStore(hearer?.watch ?? never, hearer?.now ?? nothing, nothing);
}

/** Whether the person asked for as little to be fetched as can be. */
function isSparing(): boolean {
  return "connection" in navigator && (navigator.connection as { saveData?: boolean }).saveData === true;
}
