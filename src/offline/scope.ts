/** What is used of a service worker's global scope (W3C Service Workers §4), which the DOM's types leave out. */
export interface KeeperScope {
  readonly location: { readonly origin: string }
  readonly clients: Clients
  skipWaiting(): Promise<void>
  addEventListener(type: 'install' | 'activate', hear: (event: Waited) => void): void
  addEventListener(type: 'fetch', hear: (event: Fetched) => void): void
  addEventListener(type: 'message', hear: (event: Waited & MessageEvent<unknown>) => void): void
}

interface Waited {
  waitUntil(work: Promise<unknown>): void
}

interface Fetched {
  readonly request: Request
  respondWith(response: Promise<Response>): void
}

export interface PageClient {
  readonly id: string
  postMessage(message: unknown): void
}

interface Clients {
  claim(): Promise<void>
  matchAll(which: { readonly type: 'window'; readonly includeUncontrolled: true }): Promise<readonly PageClient[]>
}
