import type { Metadata } from "next";
import { AccountForm } from "../parts/AccountForm";
import { Masthead } from "../parts/Masthead";

export const metadata: Metadata = { title: "Sign in" };

export default async function SignInPage({ searchParams }: { searchParams: Promise<{ next?: string }> }) {
  const { next } = await searchParams;
  return (
    <>
      <Masthead name={null} />
      <main>
        <AccountForm kind="in" next={next} />
      </main>
    </>
  );
}
