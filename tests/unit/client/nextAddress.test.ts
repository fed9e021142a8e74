import { expect, test } from "vitest";
import { nextAddress } from "@/lib/client/account/account";

test("a link that says where to go after signing in never leads to another site", () => {
  const own = "http://liftbook.test";
  for (const odd of [
    "//evil.example",
    "/\\evil.example",
    "/\t/evil.example",
    "/\n/evil.example",
    "\t//evil.example",
    "https://evil.example",
    "javascript:alert(1)",
    "evil.example",
    "",
    null,
  ])
    expect(new URL(nextAddress(odd), own).href).toBe(`${own}/books`);
  for (const page of ["/", "/books/abc", "/invite/x-_9?a=b#c"]) expect(nextAddress(page)).toBe(page);
});
