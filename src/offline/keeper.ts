import type { Build } from './build.ts'
import { keepParts, partKept } from './keepParts.ts'
import type { KeeperScope } from './scope.ts'
import type { FromKeeper, ToKeeper } from './talk.ts'

/** What this build is made of; the build puts it in. */
declare const BUILD: Build

const build = BUILD
const scope = self as unknown as KeeperScope
const paths = new Set(build.parts.map(({ path }) => path))

const pages = () => scope.clients.matchAll({ type: 'window', includeUncontrolled: true })

async function tell(message: FromKeeper): Promise<void> {
  for (const page of await pages()) page.postMessage(message)
}

// A newer build waits until no page shows the older one, or until the person lets the only one be loaded again.
scope.addEventListener('install', (event) => {
  event.waitUntil(keepParts(build, caches, (done, of) => void tell({ keeping: { done, of } })))
})

scope.addEventListener('activate', (event) => {
  event.waitUntil(partKept.forgetOthers(build, caches).then(() => scope.clients.claim()))
})

scope.addEventListener('message', (event) => {
  if ((event.data as ToKeeper).do !== 'take over') return
  event.waitUntil(
    pages().then((open) => (open.length > 1 ? tell({ othersOpen: open.length - 1 }) : scope.skipWaiting())),
  )
})

scope.addEventListener('fetch', (event) => {
  const { request } = event
  const { origin, pathname } = new URL(request.url)
  if (request.method !== 'GET' || origin !== scope.location.origin) return
  const path = pathname === build.base ? `${build.base}index.html` : pathname
  if (paths.has(path)) event.respondWith(answer(request, path))
})

async function answer(request: Request, path: string): Promise<Response> {
  const compiled = path.endsWith('.wasm') ? await partKept.asFetched(path) : undefined
  return compiled ?? (await partKept.read(build, caches, path)) ?? fetch(request)
}
