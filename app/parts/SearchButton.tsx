import controls from "./controls.module.css";

/** Opens the search of acts; for hands that have no Ctrl K. */
export function SearchButton({ onSearch }: { onSearch: () => void }) {
  return (
    <button
      type="button"
      className={controls.button}
      aria-label="Do something"
      title="Do something (Ctrl K)"
      data-search=""
      onClick={onSearch}
    >
      <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">
        <circle cx="6.5" cy="6.5" r="4.5" fill="none" stroke="currentColor" strokeWidth="1.8" />
        <path d="m10 10 4.5 4.5" stroke="currentColor" strokeWidth="1.8" strokeLinecap="round" />
      </svg>
    </button>
  );
}
