import controls from "@/app/parts/controls.module.css";
import { usePlayerState } from "@/lib/client/player/usePlayer";
import { BAND_CHOICES, CHANNEL_CHOICES, LISTENING_RANGES } from "@/lib/document/records/ListeningSettings";
import { useDesk } from "./DeskContext";
import { ListeningNumber } from "./ListeningNumber";
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
      <div className={controls.toggles}>
        {CHANNEL_CHOICES.map((choice) => (
          <button
            key={choice}
            type="button"
            className={controls.toggle}
            aria-pressed={channels === choice}
            onClick={() => set({ channels: choice })}
          >
            {CHANNEL_WORDS[choice]}
          </button>
        ))}
      </div>
      {isMono ? <p className={styles.note}>The record is mono: its sides are silent.</p> : null}
      <label className={styles.slider}>
        <span>balance</span>
        <input
          type="range"
          min={-100}
          max={100}
          step={1}
          value={Math.round(balance * 100)}
          aria-valuetext={sideWords(balance)}
          onChange={({ target }) => set({ balance: Number(target.value) / 100 })}
        />
        <span className={styles.figure} aria-hidden="true">
          {sideWords(balance)}
        </span>
      </label>
      <div className={controls.toggles}>
        {BAND_CHOICES.map((choice) => (
          <button
            key={choice}
            type="button"
            className={controls.toggle}
            aria-pressed={band === choice}
            onClick={() => set({ band: choice })}
          >
            {BAND_WORDS[choice]}
          </button>
        ))}
      </div>
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
