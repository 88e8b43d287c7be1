import { createHash } from 'node:crypto'

/**
 * What the page may load and run: its own origin only. WebAssembly is the database, blob: pictures are photos of the
 * person's own.
 */
const DIRECTIVES = [
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
]

/**
 * A page's policy as it stands in the page itself, for servers that send no headers. Styles that are written into the page
 * are allowed one by one, each by what it holds (Content Security Policy Level 3, § 2.3.1, hash-source).
 */
export const policyWithin = (html: string): string =>
  DIRECTIVES.map((one) => (one.startsWith('style-src') ? [one, ...stylesIn(html)].join(' ') : one)).join('; ')

/** The policy that is sent with an answer: a page's own, and that nobody may frame it, which a page can't say itself. */
export const policySent = (html = ''): string => `${policyWithin(html)}; frame-ancestors 'none'`

const stylesIn = (html: string): string[] =>
  [...html.matchAll(/<style[^>]*>([\s\S]*?)<\/style>/g)].map(
    ([, held]) => `'sha256-${createHash('sha256').update(held!).digest('base64')}'`,
  )
