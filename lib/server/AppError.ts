import { type ErrorCode, errorMessage } from "@/lib/contracts/errors";

/** A refusal that a person may read: one line of the error table (lib/contracts/errors.ts). */
export class AppError extends Error {
  override readonly name = "AppError";

  constructor(
    readonly code: ErrorCode,
    /** Fills the `{name}`s of the code's message. */
    readonly details: Readonly<Record<string, string>> = {},
    options?: ErrorOptions,
  ) {
    super(errorMessage(code, details), options);
  }
}

/** Also true of one that another copy of this module made: Next bundles its own. */
export function isAppError(fault: unknown): fault is AppError {
  return fault instanceof Error && fault.name === "AppError" && "code" in fault;
}
