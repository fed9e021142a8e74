import type { Metadata } from "next";
import { AccountForm } from "../parts/AccountForm";
import { Masthead } from "../parts/Masthead";

export const metadata: Metadata = { title: "Sign up" };

export default async function SignUpPage({ searchParams }: { searchParams: Promise<{ next?: string }> }) {
  const { next } = await searchParams;
  return (
    <>
      <Masthead name={null} />
      <main>
        <AccountForm kind="up" next={next} />
      </main>
    </>
  );
}
