/**
 * What the page may load and run: its own origin only. WebAssembly is the database, blob: pictures are photos of the
 * person's own. The same policy stands in the page itself, for servers that send no headers.
 */
export const PAGE_POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "connect-src 'self' blob: data:",
  "img-src 'self' blob: data:",
  "style-src 'self'",
  "font-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ')
