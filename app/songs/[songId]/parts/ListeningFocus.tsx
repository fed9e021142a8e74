import { usePlayerState } from "@/lib/client/player/usePlayer";
import { BAND_CHOICES, CHANNEL_CHOICES, LISTENING_RANGES } from "@/lib/document/records/ListeningSettings";
import { useDesk } from "./DeskContext";
import { ListeningChoice } from "./ListeningChoice";
import { ListeningNumber } from "./ListeningNumber";
import { ListeningSlider } from "./ListeningSlider";
import styles from "./listening.module.css";
import { listeningActs } from "./listeningActs";
import { BAND_WORDS, CHANNEL_WORDS } from "./listeningWords";

/** What of the record is heard: which channels, and which range. */
export function ListeningFocus() {
  const desk = useDesk();
  const { listening, memory } = usePlayerState(desk.player);
  const { channels, balance, band, ownBand } = listening;
  const { set } = listeningActs(desk);
  const isMono = memory.kind === "ready" && memory.channels === 1;
  const [lowest, highest] = LISTENING_RANGES.bandHz;
  return (
    <fieldset className={styles.group}>
      <legend>Heard of the record</legend>
      <ListeningChoice
        choices={CHANNEL_CHOICES}
        chosen={channels}
        words={CHANNEL_WORDS}
        onChoose={(choice) => set({ channels: choice })}
      />
      {isMono ? <p className={styles.note}>The record is mono: its sides are silent.</p> : null}
      <ListeningSlider
        label="balance"
        value={balance * 100}
        range={[-100, 100]}
        words={sideWords(balance)}
        onChange={(percent) => set({ balance: percent / 100 })}
      />
      <ListeningChoice
        choices={BAND_CHOICES}
        chosen={band}
        words={BAND_WORDS}
        onChoose={(choice) => set({ band: choice })}
      />
      {band === "own" ? (
        <div className={styles.row}>
          <ListeningNumber
            label="from"
            unit="Hz"
            value={ownBand.lowHz}
            range={[lowest, highest]}
            step={10}
            onChange={(lowHz) => set({ ownBand: { ...ownBand, lowHz } })}
          />
          <ListeningNumber
            label="to"
            unit="Hz"
            value={ownBand.highHz}
            range={[lowest, highest]}
            step={10}
            onChange={(highHz) => set({ ownBand: { ...ownBand, highHz } })}
          />
        </div>
      ) : null}
    </fieldset>
  );
}

function sideWords(balance: number): string {
  if (balance === 0) return "even";
  return `${Math.round(Math.abs(balance) * 100)} % ${balance < 0 ? "left" : "right"}`;
}
