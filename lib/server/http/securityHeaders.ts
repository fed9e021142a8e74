/** What the headers depend on. */
export interface SecurityContext {
  /** Marks the page's own inline scripts; new for every answer. */
  nonce: string;
  /** Whether people reach the server by https. */
  secure: boolean;
  /** The development server evaluates code as text. */
  development: boolean;
}

/**
 * What a page of Liftbook may load and do (Content Security Policy Level 3): its own files only. Sound is decoded by
 * WebAssembly and worked on in workers and worklets, some of them made from blobs.
 */
export function contentSecurityPolicy({ nonce, secure, development }: SecurityContext): string {
  const directives = [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' blob: 'wasm-unsafe-eval'${development ? " 'unsafe-eval'" : ""}`,
    // Components write style attributes into the page.
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "media-src 'self' blob:",
    "worker-src 'self' blob:",
    "connect-src 'self' blob:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
    ...(secure ? ["upgrade-insecure-requests"] : []),
  ];
  return directives.join("; ");
}

/** The headers of every answer. */
export function securityHeaders(context: SecurityContext): Record<string, string> {
  return {
    "Content-Security-Policy": contentSecurityPolicy(context),
    "X-Content-Type-Options": "nosniff",
    // Invitations are addresses: no other site may learn them.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    // Notes are played in by microphone and MIDI; the page asks for either only when that is pressed.
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(self), midi=(self)",
    ...(context.secure ? { "Strict-Transport-Security": "max-age=31536000" } : {}),
  };
}
