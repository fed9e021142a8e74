"use client";

import Link from "next/link";
import { type SyntheticEvent, useState } from "react";
import { nextAddress, signIn, signUp } from "@/lib/client/account/account";
import { useIsReady } from "@/lib/client/page/useIsReady";
import { wordsOf } from "@/lib/client/requests/request";
import { PASSWORD_LENGTH } from "@/lib/contracts/accounts";
import { pages } from "@/lib/contracts/api";
import styles from "./AccountForm.module.css";
import controls from "./controls.module.css";
import { FaultWords } from "./FaultWords";

/** The form of both account pages; after it, the browser goes to `next` or to the books. */
export function AccountForm({ kind, next }: { kind: "in" | "up"; next: string | undefined }) {
  const [fault, setFault] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const isReady = useIsReady();

  async function send(event: SyntheticEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const text = (name: string) => String(form.get(name) ?? "").trim();
    const password = String(form.get("password") ?? "");
    setBusy(true);
    setFault(null);
    try {
      if (kind === "up") await signUp(text("name"), text("email"), password);
      else await signIn(text("email"), password);
      window.location.assign(nextAddress(next));
    } catch (thrown) {
      setFault(wordsOf(thrown));
      setBusy(false);
    }
  }

  const isUp = kind === "up";
  return (
    <form className={styles.form} method="post" onSubmit={send}>
      <h1>{isUp ? "Sign up" : "Sign in"}</h1>
      {isUp ? (
        <label className={controls.field}>
          Name, as the others in your books see it
          <input className={controls.input} name="name" autoComplete="name" required maxLength={80} />
        </label>
      ) : null}
      <label className={controls.field}>
        E-mail
        <input className={controls.input} name="email" type="email" autoComplete="email" required />
      </label>
      <label className={controls.field}>
        Password
        <input
          className={controls.input}
          name="password"
          type="password"
          autoComplete={isUp ? "new-password" : "current-password"}
          required
          minLength={isUp ? PASSWORD_LENGTH.min : undefined}
          maxLength={PASSWORD_LENGTH.max}
        />
        {isUp ? <span className={controls.small}>At least {PASSWORD_LENGTH.min} signs.</span> : null}
      </label>
      <FaultWords words={fault} />
      <button className={controls.act} type="submit" disabled={busy || !isReady}>
        {isUp ? "Sign up" : "Sign in"}
      </button>
      <p className={controls.note}>
        {isUp ? "You have an account? " : "New here? "}
        <Link href={isUp ? pages.signIn(next) : pages.signUp(next)}>{isUp ? "Sign in" : "Sign up"}</Link>
      </p>
    </form>
  );
}
