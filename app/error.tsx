"use client";

import controls from "./parts/controls.module.css";
import { Mark } from "./parts/Mark";
import page from "./parts/page.module.css";

export default function ErrorPage({
  error,
  reset,
}: {
  error: Error & { digest?: string };
  reset: () => void;
}) {
  return (
    <main className={page.page}>
      <div className={page.head}>
        <Mark />
        <h1>Something went wrong here</h1>
        <p className={page.lead}>
          What was saved is kept. Try again; if it happens again, tell whoever runs this server
          {error.digest ? ` (${error.digest})` : ""}.
        </p>
        <p>
          <button type="button" className={controls.act} onClick={reset}>
            Try again
          </button>
        </p>
      </div>
    </main>
  );
}
