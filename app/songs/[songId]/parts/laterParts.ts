import { laterPart } from "@/app/parts/laterPart";
import { fetchClipActs } from "./laterClip";
import { fetchQuestionActs } from "./laterQuestions";

/**
 * What of the song page is only seen when it is asked for: fetched apart from the page, so that the page can be used sooner,
 * and then while nothing else is done, so that it is there when it is wanted and when the line is gone.
 */
const PARTS = {
  asked: laterPart(() => import("./AskedLane").then(({ AskedLane }) => AskedLane)),
  check: laterPart(() => import("./CheckPanel").then(({ CheckPanel }) => CheckPanel)),
  search: laterPart(() => import("./DeskSearch").then(({ DeskSearch }) => DeskSearch)),
  eventsBar: laterPart(() => import("./EventsBar").then(({ EventsBar }) => EventsBar)),
  guess: laterPart(() => import("./GuessPanel").then(({ GuessPanel }) => GuessPanel)),
  guitarBar: laterPart(() => import("./GuitarBar").then(({ GuitarBar }) => GuitarBar)),
  guitar: laterPart(() => import("./GuitarSheet").then(({ GuitarSheet }) => GuitarSheet)),
  hearParts: laterPart(() => import("./HearParts").then(({ HearParts }) => HearParts)),
  inHand: laterPart(() => import("./InHand").then(({ InHand }) => InHand)),
  keys: laterPart(() => import("./KeysDialog").then(({ KeysDialog }) => KeysDialog)),
  listening: laterPart(() => import("./Listening").then(({ Listening }) => Listening)),
  locks: laterPart(() => import("./LockPanel").then(({ LockPanel }) => LockPanel)),
  notes: laterPart(() => import("./NotesTable").then(({ NotesTable }) => NotesTable)),
  parts: laterPart(() => import("./PartsSheet").then(({ PartsSheet }) => PartsSheet)),
  passageBench: laterPart(() => import("./PassageBench").then(({ PassageBench }) => PassageBench)),
  pedals: laterPart(() => import("./PedalsSheet").then(({ PedalsSheet }) => PedalsSheet)),
  placeCard: laterPart(() => import("./PlaceCard").then(({ PlaceCard }) => PlaceCard)),
  questions: laterPart(() => import("./Questions").then(({ Questions }) => Questions)),
  selected: laterPart(() => import("./SelectedDetails").then(({ SelectedDetails }) => SelectedDetails)),
  takeBar: laterPart(() => import("./TakeBar").then(({ TakeBar }) => TakeBar)),
  takes: laterPart(() => import("./TakesLane").then(({ TakesLane }) => TakesLane)),
  tab: laterPart(() => import("./TabDialog").then(({ TabDialog }) => TabDialog)),
  walk: laterPart(() => import("./Walk").then(({ Walk }) => Walk)),
};

export const AskedLane = PARTS.asked.Part;
export const CheckPanel = PARTS.check.Part;
export const DeskSearch = PARTS.search.Part;
export const EventsBar = PARTS.eventsBar.Part;
export const GuessPanel = PARTS.guess.Part;
export const GuitarBar = PARTS.guitarBar.Part;
export const GuitarSheet = PARTS.guitar.Part;
export const HearParts = PARTS.hearParts.Part;
export const InHand = PARTS.inHand.Part;
export const KeysDialog = PARTS.keys.Part;
export const Listening = PARTS.listening.Part;
export const LockPanel = PARTS.locks.Part;
export const NotesTable = PARTS.notes.Part;
export const PartsSheet = PARTS.parts.Part;
export const PassageBench = PARTS.passageBench.Part;
export const PedalsSheet = PARTS.pedals.Part;
export const PlaceCard = PARTS.placeCard.Part;
export const Questions = PARTS.questions.Part;
export const SelectedDetails = PARTS.selected.Part;
export const TakeBar = PARTS.takeBar.Part;
export const TakesLane = PARTS.takes.Part;
export const TabDialog = PARTS.tab.Part;
export const Walk = PARTS.walk.Part;

/** Fetches them all ahead of time; what does not come is fetched when it is wanted. */
export function fetchLaterParts(): void {
  const all = [...Object.values(PARTS).map(({ fetch }) => fetch), fetchClipActs, fetchQuestionActs];
  for (const fetch of all) fetch().catch(() => undefined);
}
